using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Order;

/// <summary>What do I buy, once? Equal parts on one line, with what the work uses up.</summary>
public static class OrderStage
{
    /// <summary>The order as comma-separated text: first line the header, numbers with a decimal point, prices as sums of the line.</summary>
    public static string Csv(OrderResult order) => OrderText.Csv(order);

    /// <summary>Pure: the same choices, the same list. One shop, example prices; suppliers and the best plan come later.</summary>
    public static OrderResult Run(ChooseResult choices, OrderPolicy? policy = null)
    {
        policy ??= new();
        var wanted = new List<Choice>();
        var not = ImmutableArray.CreateBuilder<NotOrdered>();
        foreach (var choice in choices.Choices)
            if (WhyNot(choice, policy) is { } reason) not.Add(new(choice.Position, reason));
            else wanted.Add(choice);
        not.AddRange(choices.NotChosen.Select(n => new NotOrdered(n.Position, n.Reason)));

        ImmutableArray<OrderLine> lines = [.. wanted.GroupBy(c => c.Part!)
            .OrderBy(g => g.Key.Unit == Unit.Ohm).ThenBy(g => g.Key.SafetyClass == SafetyClass.None).ThenBy(g => g.Key.Kind)
            .ThenByDescending(g => g.Key.Value).ThenBy(g => g.Key.Volts).ThenBy(g => g.Key.Text, StringComparer.Ordinal)
            .Select(g => Line(g.Key, [.. g], policy))];
        return new()
        {
            Lines = lines,
            Consumables = Consumables(choices, wanted, policy),
            NotOrdered = not.ToImmutable(),
            Count = lines.Sum(l => l.Count),
            PriceLow = lines.Sum(l => l.PriceLow ?? 0),
            PriceHigh = lines.Sum(l => l.PriceHigh ?? 0),
            PriceNote = "Example prices in no particular currency, from the catalogue's own bands: an order of size, not an offer."
                + (lines.Any(l => l.PriceLow is null || l.PriceHigh is null) ? " Lines without a price are not in the sum." : ""),
            Questions = [.. (choices.Line.Known ? [] : new[] { choices.Line.Sentence }), .. wanted.Where(c => c.Question is not null).Select(c => $"{c.Position}: {c.Question}")],
        };
    }

    private static string? WhyNot(Choice choice, OrderPolicy policy) => choice switch
    {
        { Done: true } => "The exchange is done.",
        { Decision: Decision.Stays } => $"It stays. {choice.DecisionReason}",
        { Decision: Decision.Undecided } => "Nobody has decided.",
        { Decision: Decision.MeasureFirst } when !policy.IncludeMeasureFirst => choice.Part is { } p ? $"Measure first; if it fails: {p.Text}." : $"Measure first. {choice.DecisionReason}",
        { UserReplacement: { } own } when choice.New == own => $"You chose it yourself: {own}. Buy it with the rest or take it from the drawer.",
        { Part: null } => choice.Explanation,
        _ => null,
    };

    private static OrderLine Line(ChosenPart part, ImmutableArray<Choice> choices, OrderPolicy policy)
    {
        var spares = Math.Max(0, policy.SparesPerLine);
        var count = choices.Length + spares;
        return new(part, count, [.. choices.Select(c => c.Position)], spares, part.PriceLow * count, part.PriceHigh * count);
    }

    private static ImmutableArray<Consumable> Consumables(ChooseResult choices, List<Choice> wanted, OrderPolicy policy)
    {
        if (wanted.Count == 0) return [];
        var leads = wanted.Count * 2;
        var touched = choices.LugLoads;
        var crowded = touched.Count(l => l.Ends >= policy.CrowdedFrom);
        var sections = wanted.Count(c => c.Group is { } g && choices.SharedBodies.Any(b => string.Equals(b.Group, g, StringComparison.OrdinalIgnoreCase)) && c.Requirement.Polarity is not null);
        var list = ImmutableArray.CreateBuilder<Consumable>();
        Consumable Metres(string what, double mm, string reason) => new(what, Math.Ceiling(mm / 100) / 10, "m", reason);
        list.Add(Metres("sleeve, two or three diameters", leads * policy.SleeveMmPerLead, $"{N(leads)} leads at {N(policy.SleeveMmPerLead)} mm; common practice, no source."));
        list.Add(Metres("solder, resin cored", leads * policy.SolderMmPerJoint, $"{N(leads)} joints at {N(policy.SolderMmPerJoint)} mm; common practice, no source."));
        if (touched.Length > 0)
            list.Add(Metres("desoldering braid", crowded * policy.BraidMmPerCrowdedLug + (touched.Length - crowded) * policy.BraidMmPerLug,
                $"{N(crowded)} lugs with {N(policy.CrowdedFrom)} ends or more at {N(policy.BraidMmPerCrowdedLug)} mm, {N(touched.Length - crowded)} others at {N(policy.BraidMmPerLug)} mm; common practice, no source."));
        if (sections > 0)
            list.Add(Metres("hook-up wire, insulated for the set's voltage", sections * policy.WireMmPerSection, $"{N(sections)} can sections built anew at {N(policy.WireMmPerSection)} mm; common practice, no source."));
        return list.ToImmutable();
    }

    private static string N(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
