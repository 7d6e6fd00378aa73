using System.Collections.Immutable;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>Currents and slopes of one non-linear element at given voltages.</summary>
internal static class Slopes
{
    /// <summary>Nodes and di[t]/dv[u] at t·n + u, S; null for a linear element.</summary>
    public static (int[] Nodes, double[] Siemens)? Of(Element element, ImmutableArray<double> volts) =>
        At(element, volts) is { } x ? (x.Nodes, x.Siemens) : null;

    /// <summary>Nodes, currents into the element, A, and their slopes; null for a linear element.</summary>
    public static (int[] Nodes, double[] Amperes, double[] Siemens)? At(Element element, ImmutableArray<double> volts) => element switch
    {
        Diode e => Run<DiodeDevice>([e.Anode, e.Cathode], DiodeDevice.Of(e.Law), volts),
        GasRegulator e => Run<DiodeDevice>([e.Anode, e.Cathode], DiodeDevice.Of(Direct.LawOf(e)), volts),
        Triode e => Run<TriodeDevice>([e.Plate, e.Grid, e.Cathode], TriodeDevice.Of(e.Law), volts),
        Pentode e => Run<PentodeDevice>([e.Plate, e.Screen, e.Grid, e.Cathode], PentodeDevice.Of(e.Law), volts),
        Converter e => Run<ConverterDevice>([e.Plate, e.Screen, e.Signal, e.Oscillator, e.Cathode], ConverterDevice.Of(e.Law, e.OscillatorPeakVolts), volts),
        _ => null,
    };

    private static (int[], double[], double[]) Run<TDevice>(int[] nodes, double[] parameters, ImmutableArray<double> volts) where TDevice : IDevice
    {
        var i = new One[nodes.Length];
        var g = new One[nodes.Length * nodes.Length];
        TDevice.Evaluate<One>([.. parameters.Select(p => new One(p))], [.. nodes.Select(n => new One(volts[n]))], i, g);
        return (nodes, [.. i.Select(x => x.Value)], [.. g.Select(x => x.Value)]);
    }
}
