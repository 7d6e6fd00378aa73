using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Puts separately written values together: sections of one can, the same value said twice, a choke's henries and ohms.</summary>
internal static class Sections
{
    /// <summary>The candidates of the whole.</summary>
    /// <param name="groups">One or more, in order.</param>
    /// <param name="failure">Set when they cannot belong to one part.</param>
    /// <param name="windingOhms">The ohms of a choke that is marked in henries.</param>
    public static ImmutableArray<Candidate> Combine(ImmutableArray<ValueGroup> groups, out Failure? failure, out double? windingOhms)
    {
        failure = null;
        windingOhms = null;
        var whole = groups[0].Candidates;
        for (var i = 1; i < groups.Length && failure is null; i++)
        {
            var group = groups[i];
            var same = whole.Where(c => c.Values.Length == 1 && group.Candidates.Any(g => IsSame(c, g))).ToImmutableArray();
            if (!same.IsEmpty && (!group.Joined || group.Figures != groups[i - 1].Figures))
            {
                whole = same;
                continue;
            }
            if (HenryAndOhm(whole, group.Candidates, out var henries, out var ohms))
            {
                (whole, windingOhms) = (henries, ohms);
                continue;
            }
            if (!whole.Any(c => Partner(c, group.Candidates) is not null) && !whole.Any(c => group.Candidates.Any(g => g.Unit == c.Unit)))
            {
                failure = new(group.Start, "a resistor's and a capacitor's unit together", "Read one part at a time.");
                break;
            }
            var marked = group.Joined || group.VoltsBefore > groups[i - 1].VoltsBefore;
            if (!marked)
            {
                failure = new(group.Start, "two values without a section mark", "Put - or / between the sections.");
                break;
            }
            var joined = whole.Select(c => (Of: c, And: Partner(c, group.Candidates))).Where(p => p.And is not null).ToList();
            if (joined.Count == 0)
            {
                failure = new(group.Start, "two sections that are not written in the same way", "Write the unit after each of them.");
                break;
            }
            whole = [.. joined.Select(p => p.Of with { Values = [.. p.Of.Values, .. p.And!.Values] })];
        }
        return failure is null ? whole : [];
    }

    // The way to take the next section that goes with this way: the same writing, or at least the same habit.
    private static Candidate? Partner(Candidate c, ImmutableArray<Candidate> next) =>
        next.FirstOrDefault(n => n.Unit == c.Unit && n.Form == c.Form && n.Code == c.Code)
        ?? (c.Form is Form.TrueValue or Form.MicrofaradsAndLetter ? null : next.FirstOrDefault(n => n.Unit == c.Unit && n.Habit == c.Habit && n.Form is not (Form.TrueValue or Form.MicrofaradsAndLetter)));

    private static bool IsSame(Candidate a, Candidate b) =>
        a.Unit == b.Unit && b.Values.Length == 1 && a.Values.Length == 1 && Math.Abs(a.Value / b.Value - 1) < 0.015;

    private static bool HenryAndOhm(ImmutableArray<Candidate> a, ImmutableArray<Candidate> b, out ImmutableArray<Candidate> henries, out double ohms)
    {
        var aHenry = a.Any(c => c.Unit == Unit.Henry);
        var (h, o) = aHenry ? (a, b) : (b, a);
        henries = [.. h.Where(c => c.Unit == Unit.Henry)];
        var ohm = o.FirstOrDefault(c => c.Unit == Unit.Ohm && c.Form is Form.Spelt or Form.LetterTail or Form.LetterPoint);
        ohms = ohm?.Value ?? 0;
        return !henries.IsEmpty && ohm is not null && !o.Any(c => c.Unit == Unit.Henry);
    }
}
