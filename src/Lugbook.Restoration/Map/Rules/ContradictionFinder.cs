using System.Collections.Immutable;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>All rules, in one list; worst first, then by place.</summary>
internal static class ContradictionFinder
{
    private static readonly Func<RuleContext, IEnumerable<Contradiction>>[] Rules =
    [
        NamesRule.Find,
        LeadsRule.Find,
        WiresRule.Find,
        ShortedRule.Find,
        FloatingRule.Find,
        ReturnRule.Find,
        SupplyRule.Find,
        HeaterRule.Find,
        SocketRule.Find,
        PolarityRule.Find,
        FootRule.Find,
        LineRule.Find,
        GeometryRule.Find,
        ValueRule.Find,
        MarkingRule.Find,
    ];

    public static ImmutableArray<Contradiction> Find(Chart chart, MapResult map)
    {
        RuleContext context = new(chart, map);
        return [.. Rules.SelectMany(rule => rule(context)).Distinct()
            .OrderByDescending(f => f.Weight).ThenBy(f => f.Place, NaturalOrder.Names).ThenBy(f => f.Rule, StringComparer.Ordinal)];
    }
}
