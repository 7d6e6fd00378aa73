using Lugbook.Trade;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>What is joined to what? Nodes from lugs, wires and bonds; chassis, common and earth; contradictions.</summary>
public static class MapStage
{
    /// <summary>Pure: the same book and handbook, the same map.</summary>
    public static MapResult Run(Book book, ValveHandbook handbook) => throw new NotSupportedException();
}
