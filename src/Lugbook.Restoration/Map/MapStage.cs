using System.Collections.Immutable;
using Lugbook.Restoration.Map.Rules;
using Lugbook.Trade;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>What is joined to what? Nodes from lugs, wires and bonds; chassis, common and earth; contradictions.</summary>
public static class MapStage
{
    /// <summary>Pure: the same book and handbook, the same map. Never throws on what a book may hold.</summary>
    /// <remarks>
    /// Node names do not depend on the order of the tables; node numbers do. A set whose chassis is its common names that node "chassis".
    /// </remarks>
    public static MapResult Run(Book book, ValveHandbook handbook)
    {
        var chart = Chart.Of(book, handbook);
        var (chassis, chassisEvidence) = ChassisFinder.Chassis(chart);
        var (earth, earthEvidence) = ChassisFinder.Earth(chart);
        var common = CommonFinder.Find(chart, chassis);
        var names = NodeNames.Of(chart, chassis, common.Node, earth);
        ImmutableArray<Node> nodes = [.. Enumerable.Range(0, chart.Count).Select(i => new Node
        {
            Index = i,
            Name = names[i],
            Lugs = chart.LugsOf[i],
            Leads = chart.LeadsOf[i],
            Pins = chart.PinsOf[i],
        })];
        FoundNode Found(int? node, string evidence) => new(node is { } n ? nodes[n] : null, evidence);
        var line = LineFinder.Find(chart, common.Node, chassis, earth);
        MapResult bare = new()
        {
            Book = book,
            Nodes = nodes,
            NodeByLug = chart.NodeByLug,
            WiredSetByLug = chart.WiredSetByLug,
            UnknownLugs = chart.UnknownLugs,
            Chassis = Found(chassis, chassisEvidence),
            Common = Found(common.Node, common.Node == chassis && chassis is not null ? $"Chassis and common are one node. {common.Evidence}" : common.Evidence),
            Earth = Found(earth, earthEvidence),
            LineNodes = [.. line.Select(f => nodes[f.Node])],
            LineWays = [.. line.Select(f => new LineNode(nodes[f.Node], f.Path, f.Evidence))],
            Isolations = [.. LineFinder.Isolations(chart, line, chassis, earth).Select(i => new Isolation(i.Part, nodes[i.Line], nodes[i.Far]))],
            Contradictions = [],
        };
        return bare with { Contradictions = ContradictionFinder.Find(chart, bare) };
    }
}
