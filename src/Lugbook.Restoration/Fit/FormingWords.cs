using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Fit;

/// <summary>A part's plan as sentences.</summary>
internal static class FormingWords
{
    public static string Of(PartPlan plan)
    {
        var leads = plan.Leads.Select(l =>
        {
            var cut = l.CutMm is { } mm ? $"cut {Show.Number(mm)} mm from the body ({Show.Number(l.WrapMm)} mm of it for the wrap)" : "cut it at the lug";
            var bends = l.BendsMm.IsEmpty ? "" : $", bend at {Show.List([.. l.BendsMm.Select(Show.Number)])} mm";
            var sleeve = l.SleeveMm switch { null or 0 => "", { } s => $", sleeve of {Show.Number(s)} mm on before bending" };
            return $"Lead {l.Letter}: {cut}{bends}{sleeve}. {l.SleeveWhy}";
        });
        return string.Join(" ", leads.Prepend(plan.Sentence).Append(plan.First).Concat(plan.MarkedEnd is { } end ? [end] : []));
    }
}
