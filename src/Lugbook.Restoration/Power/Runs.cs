using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Power;

/// <summary>The set's network with its line, and what becomes of it when something in the supply is changed.</summary>
internal sealed class Runs
{
    private const int Steps = 192;
    private readonly CancellationToken _stop;

    public Runs(SolveResult solved, CancellationToken stop)
    {
        _stop = stop;
        Solved = solved;
        Network = Balancing.Carried(solved.Netlist.Network!, solved.Direct!, solved.Netlist.Balances);
        Line = Network.Elements.OfType<Mains>().First();
        Rectifiers = [.. solved.Rectifiers.Select(r => (Diode)Network.Elements.First(e => e.Name == r.Element))];
    }

    public SolveResult Solved { get; }

    /// <summary>The part that an element belongs to.</summary>
    public string PositionOf(string element) => Solved.Netlist.Origins.FirstOrDefault(o => o.Element == element)?.Position ?? element;

    /// <summary>The rectifier whose output stands highest: where the set's supply begins. Null when none is there.</summary>
    public Diode? Last => Solved.Cycle is { } cycle ? Rectifiers.MaxBy(d => cycle.Nodes[d.Cathode].Average) : null;
    public Network Network { get; }
    public Mains Line { get; }
    /// <summary>Diodes that the line drives.</summary>
    public ImmutableArray<Diode> Rectifiers { get; }

    /// <summary>A bias rectifier: its cathode is on a winding, and what it charges lies below common.</summary>
    public bool DeliversMinus(Diode diode) => Solved.Cycle is { } cycle && cycle.Nodes[diode.Cathode].Average <= 1 && cycle.Nodes[diode.Anode].Average < -1;

    /// <summary>The node that a rectifier charges.</summary>
    public int OutputOf(Diode diode) => DeliversMinus(diode) ? diode.Anode : diode.Cathode;

    /// <summary>The cycle of a changed network; null when it does not settle.</summary>
    public SupplyState? Cycle(Network changed)
    {
        _stop.ThrowIfCancellationRequested();
        try
        {
            return Powered.Of(changed, new() { StepsPerCycle = Steps }).Cycle;
        }
        catch (UnsolvableException)
        {
            return null;
        }
    }

    /// <summary>The network at another line voltage and with a resistance in the line.</summary>
    public Network AtLine(double share, double ohms = 0) => Network.With(Line with { VoltsRms = Line.VoltsRms * share, Ohms = Line.Ohms + ohms });

    /// <summary>Highest volts against the direction of a diode over a cycle.</summary>
    public static double Inverse(SupplyState cycle, Diode diode) => cycle.Cycle.Volts.Max(v => v[diode.Cathode] - v[diode.Anode]);
}
