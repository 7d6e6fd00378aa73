using System.Numerics;
using Lugbook.Circuit.Alternating;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit;

/// <summary>Small alternating voltages about the operating point.</summary>
public static class SmallSignal
{
    /// <summary>Voltage at one node for 1 V at another, both to the reference.</summary>
    /// <param name="network">The network; its operating point is solved first.</param>
    /// <param name="input">Where the signal is put in, from a source without resistance; it takes the place of a voltage declared there.</param>
    /// <param name="output">Where it is measured.</param>
    /// <param name="hertz">Frequency, Hz; above 0.</param>
    /// <returns>Complex gain: magnitude and phase. 0 when no signal comes through.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network or is the reference, or the frequency is not above 0.</exception>
    /// <exception cref="UnsolvableException">The operating point does not settle.</exception>
    /// <remarks>
    /// Valves are their slopes at the operating point; filaments stay at their hot resistance; the line and batteries are their resistance, declared voltages stand
    /// still. Valves have no capacitance between electrodes unless it is entered as capacitors, so response above the audio range is optimistic. docs/circuit.md.
    /// </remarks>
    public static Complex Gain(Network network, int input, int output, double hertz)
    {
        foreach (var (node, name) in new[] { (input, nameof(input)), (output, nameof(output)) })
            if (node < 0 || node >= network.NodeCount) throw new ArgumentOutOfRangeException(name, node, $"Nodes run from 0 to {network.NodeCount - 1}.");
        if (input == network.Reference) throw new ArgumentOutOfRangeException(nameof(input), input, "The reference cannot carry a signal.");
        if (!(hertz > 0 && double.IsFinite(hertz))) throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "The frequency is above 0 Hz.");

        var (at, still) = Stamped(network, OperatingPoint.Of(network), hertz, null);
        still.Remove(input);
        var volts = at.VoltsFor(input, still);
        if (volts is null) return input == output ? Complex.One : Complex.Zero;
        // 1 A at the input gives volts; the ratio is what 1 V there gives.
        return volts[input] == Complex.Zero ? Complex.Zero : volts[output] / volts[input];
    }

    /// <summary>Impedance that the circuit shows to a part between two nodes: with that part taken out, valves working.</summary>
    /// <param name="network">The network.</param>
    /// <param name="point">Its operating point, the part in place.</param>
    /// <param name="a">One node of the part.</param>
    /// <param name="b">Its other node.</param>
    /// <param name="without">The part's element, left out; null to leave all in.</param>
    /// <param name="hertz">Frequency, Hz; above 0.</param>
    /// <returns>Ω, complex; infinite real part where nothing else joins the two nodes.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network or the frequency is not above 0.</exception>
    /// <remarks>1 A in at a and out at b, by superposition: Z = Vaa − Vab − Vba + Vbb. What stays still is as for <see cref="Gain"/>.</remarks>
    public static Complex Seen(Network network, OperatingPoint point, int a, int b, string? without, double hertz)
    {
        foreach (var (node, name) in new[] { (a, nameof(a)), (b, nameof(b)) })
            if (node < 0 || node >= network.NodeCount) throw new ArgumentOutOfRangeException(name, node, $"Nodes run from 0 to {network.NodeCount - 1}.");
        if (!(hertz > 0 && double.IsFinite(hertz))) throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "The frequency is above 0 Hz.");
        if (a == b) return Complex.Zero;
        var (at, still) = Stamped(network, point, hertz, without);
        Complex[]? From(int node) => still.Contains(node) ? new Complex[network.NodeCount] : at.VoltsFor(node, still);
        var (fromA, fromB) = (From(a), From(b));
        if (fromA is null || fromB is null) return new(double.PositiveInfinity, 0);
        return fromA[a] - fromA[b] - fromB[a] + fromB[b];
    }

    private static (AtFrequency At, List<int> Still) Stamped(Network network, OperatingPoint point, double hertz, string? without)
    {
        var at = new AtFrequency(network.NodeCount, hertz);
        var still = new List<int> { network.Reference };
        foreach (var element in network.Elements)
        {
            if (element.Name == without) continue;
            if (element is Declared d) still.Add(d.Node);
            else if (Slopes.Of(element, point.Volts) is { } slopes) Stamp(at, slopes);
            else at.Add(element);
        }
        return (at, still);
    }

    private static void Stamp(AtFrequency at, (int[] Nodes, double[] Siemens) slopes)
    {
        var n = slopes.Nodes.Length;
        for (var t = 0; t < n; t++)
            for (var u = 0; u < n; u++) at.Transfer(slopes.Nodes[t], slopes.Nodes[u], slopes.Siemens[t * n + u]);
        for (var t = 1; t < n; t++) at.Way(slopes.Nodes[0], slopes.Nodes[t]);
    }
}
