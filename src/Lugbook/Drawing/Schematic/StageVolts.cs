using System.Globalization;
using Lugbook.Restoration.Solve;

namespace Lugbook.Drawing.Schematic;

/// <summary>The solved volts of a node as a diagram shows them.</summary>
public static class StageVolts
{
    /// <summary>"84 V", "−7.6 V"; null for everything when nothing is solved.</summary>
    public static Func<int, string?> Of(SolveResult solved) => node =>
        solved.Point is not { } point || point.FloatingNodes.Contains(node) ? null
        : Math.Abs(point.Volts[node]) < 0.05 ? "0 V"
        : string.Create(CultureInfo.InvariantCulture, $"{point.Volts[node].ToString(Math.Abs(point.Volts[node]) < 20 ? "0.0" : "0", CultureInfo.InvariantCulture).Replace('-', '−')} V");
}
