using System.Collections.Immutable;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Order;

/// <summary>Counts positions and multiplies by the rules of thumb.</summary>
internal static class Quoting
{
    public static Quotation Of(ImmutableArray<BookChoices> books, OrderPlan? plan, QuotationRules rules)
    {
        var choices = books.SelectMany(b => b.Choices.Choices.Where(c => !c.Done)).ToArray();
        var goes = choices.Where(c => c.Decision == Decision.Goes).ToArray();
        var sections = goes.Count(c => c.Group is not null && c.Requirement.Polarity is not null);
        var measured = choices.Count(c => c.Decision == Decision.MeasureFirst);
        ImmutableArray<QuotedWork> work =
        [
            .. Work("looking over, cleaning, safety, first power and trial run of a set", books.Length, rules.HoursPerSetLow, rules.HoursPerSetHigh),
            .. Work("parts exchanged", goes.Length - sections, rules.HoursPerPositionLow, rules.HoursPerPositionHigh),
            .. Work("sections of cans built anew", sections, rules.HoursPerSectionLow, rules.HoursPerSectionHigh),
            .. Work("parts measured first", measured, rules.HoursPerMeasuredLow, rules.HoursPerMeasuredHigh),
        ];
        var (low, high) = (work.Sum(w => w.Low), work.Sum(w => w.High));
        ImmutableArray<QuotedPart> parts = plan is { Positions.IsEmpty: false }
            ? [.. plan.Positions.SelectMany(p => p.Also.Select(a => (a.Part.Text, a.Count)).Prepend((p.Part.Text, p.Count))).GroupBy(p => p.Item1).Select(g => new QuotedPart(g.Sum(p => p.Item2), g.Key))]
            : [.. goes.Select(c => c.New).OfType<string>().GroupBy(t => t).Select(g => new QuotedPart(g.Count(), g.Key))];
        var notes = new List<string> { "Hours are a rule of thumb: so much a position and so much a set (common practice, no source)." };
        if (measured > 0) notes.Add("Parts that are measured first may turn out bad: each then adds the hours of an exchange, and the part.");
        notes.Add("Valves, windings, controls, switches and alignment are not in it.");
        if (goes.Any(c => c.New is null)) notes.Add("For some positions no part is found yet; they are in the hours, not in the parts.");
        return new()
        {
            Parts = parts,
            Work = work,
            HoursLow = Math.Round(low, 1),
            HoursHigh = Math.Round(high, 1),
            LabourLow = rules.HourPrice is { } hour ? Math.Round((decimal)low * hour, 2) : null,
            LabourHigh = rules.HourPrice is { } most ? Math.Round((decimal)high * most, 2) : null,
            PartsMoney = rules.ShowPartPrices ? plan?.Money : null,
            Currency = plan?.Currency,
            Notes = [.. notes],
        };
    }

    private static IEnumerable<QuotedWork> Work(string what, int count, double low, double high) => count == 0 ? [] : [new(what, count, Math.Round(count * low, 2), Math.Round(count * high, 2))];
}
