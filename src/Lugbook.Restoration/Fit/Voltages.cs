using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Fit;

/// <summary>Volts between nodes of the working set, at the worst moment of the line's cycle; nothing where nothing is solved.</summary>
internal sealed class Voltages(SolveResult? solved)
{
    /// <summary>Is there a solution at all?</summary>
    public bool Known => solved?.Point is not null;

    /// <summary>Largest difference, V; null when either node's volts are not known.</summary>
    /// <remarks>Each node's own highest and lowest are taken as if they came together: never too small, and seldom by much too large.</remarks>
    public double? Between(int? a, int? b) => Range(a) is var (la, ha) && Range(b) is var (lb, hb) ? Math.Max(Math.Abs(ha - lb), Math.Abs(hb - la)) : null;

    private (double Low, double High)? Range(int? node)
    {
        if (node is not { } n || solved?.Point is not { } point || n >= point.Volts.Length || point.FloatingNodes.Contains(n)) return null;
        return solved.Cycle is { } cycle && n < cycle.Nodes.Length ? (Math.Min(cycle.Nodes[n].Lowest, point.Volts[n]), Math.Max(cycle.Nodes[n].Highest, point.Volts[n])) : (point.Volts[n], point.Volts[n]);
    }
}
