using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>Several capacitors to one touchable point add up in the hand that touches it.</summary>
internal static class TouchSum
{
    /// <summary>A caution for each touchable node whose parts, as they will be, pass more than the limit together.</summary>
    public static IEnumerable<Caution> Over(MapResult map, LineView line, ImmutableArray<Choice> choices, ChoosePolicy policy)
    {
        var parts = choices.Where(c => c.Requirement.SafetyClass is SafetyClass.Y1 or SafetyClass.Y2)
            .Select(c => (Choice: c, Node: c.Lugs.Select(map.NodeOf).FirstOrDefault(n => n is not null && line.IsTouchable(n.Index)),
                Farads: c.Decision == Decision.Goes ? c.Part?.Value : c.OldValue))
            .Where(c => c.Node is not null && c.Farads is not null);
        foreach (var group in parts.GroupBy(p => p.Node!.Index))
        {
            var worst = SafetyRule.Currents(map.Book.Facts, group.Sum(g => g.Farads!.Value)).MaxBy(c => c.Milliamperes)!;
            if (worst.Milliamperes > policy.TouchMilliamperes)
                yield return new("S-touch-sum", $"{Show.List([.. group.Select(g => g.Choice.Position)])} pass {Show.Number(Math.Round(worst.Milliamperes, 2))} mA to {map.Nodes[group.Key].Name} at {Show.Number(worst.LineVolts)} V, above the limit of {Show.Number(policy.TouchMilliamperes)} mA for a hand.");
        }
    }
}
