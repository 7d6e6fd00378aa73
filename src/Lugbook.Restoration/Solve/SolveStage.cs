using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;

namespace Lugbook.Restoration.Solve;

/// <summary>Solves the set as it should be: all parts at their marked value, warm, at its line voltage.</summary>
public static class SolveStage
{
    /// <summary>How far the line may be off, as a share.</summary>
    public const double LineShare = 0.1;
    private const int MostRounds = 12;

    /// <summary>Pure: the same netlist, the same answer. What cannot be solved comes back with a reason.</summary>
    public static SolveResult Run(NetlistResult netlist)
    {
        if (netlist.Network is not { } network) return Failed(netlist, netlist.Reason!);
        try
        {
            return Solved(netlist, network);
        }
        catch (UnsolvableException e)
        {
            return Failed(netlist, $"The circuit as entered does not settle. {e.Message}");
        }
    }

    private static SolveResult Solved(NetlistResult netlist, Network network)
    {
        var hasLine = network.Elements.Any(e => e is Mains);
        PoweredState? powered = null;
        var direct = network;
        // What the declared voltages deliver changes the load of the supply, and that the voltages: first for direct current alone, then once more through the cycle.
        for (var pass = 0; pass < (netlist.Balances.IsEmpty ? 1 : 2); pass++)
        {
            if (hasLine)
            {
                powered = Powered.Of(network);
                direct = powered.Direct;
            }
            direct = Balancing.Of(direct, netlist.Balances, MostRounds);
            network = Balancing.Carried(network, direct, netlist.Balances);
        }
        var point = OperatingPoint.Of(direct);
        var remarks = ImmutableArray.CreateBuilder<string>();
        if (powered is { MeanErrorVolts: > 1 })
            remarks.Add(string.Create(CultureInfo.InvariantCulture, $"The supply's rectifier is averaged over the cycle; followed moment by moment, a node's mean differs by up to {powered.MeanErrorVolts:0.#} V."));
        if (!hasLine && !network.Elements.Any(e => e is Battery or Declared)) remarks.Add("Neither a line nor a declared voltage is entered: every voltage is 0 V.");
        foreach (var b in netlist.Balances.Where(b => b.Kind == BalanceKind.PlateCurrent))
        {
            var drain = (CurrentDrain)direct.Elements.First(e => e.Name == b.Element);
            remarks.Add(string.Create(CultureInfo.InvariantCulture, $"{b.Element} works on pulses: its mean plate current, {drain.Amperes * 1e3:0.#} mA, follows from its declared voltages, not from its law."));
        }
        return new()
        {
            Netlist = netlist,
            Direct = direct,
            Point = point,
            Cycle = powered?.Cycle,
            Rectifiers = powered?.Rectifiers ?? [],
            Spreads = [.. AsSolved(netlist.Spreads, direct), .. (powered?.Rectifiers ?? []).Select(r => new Spread(r.Source, Parameter.Volts, r.LiftVolts, r.LiftVolts * (1 - LineShare), r.LiftVolts * (1 + LineShare), SpreadCause.Line))],
            Remarks = remarks.ToImmutable(),
        };
    }

    // What solving changed keeps its share of spread: a boost's volts were found by balancing, a rectifier's law was averaged.
    private static IEnumerable<Spread> AsSolved(ImmutableArray<Spread> spreads, Network direct) => spreads.Select(s => (s.Parameter, direct.Elements.FirstOrDefault(e => e.Name == s.Element)) switch
    {
        (Parameter.Volts, Battery b) => s with { Nominal = b.Volts, Low = b.Volts * (1 - LineShare), High = b.Volts * (1 + LineShare) },
        (Parameter.Perveance, Diode d) when d.Law.Perveance != s.Nominal => s with { Nominal = d.Law.Perveance, Low = s.Low / s.Nominal * d.Law.Perveance, High = s.High / s.Nominal * d.Law.Perveance },
        _ => s,
    });

    private static SolveResult Failed(NetlistResult netlist, string reason) => new()
    {
        Netlist = netlist, Direct = null, Point = null, Cycle = null, Rectifiers = [], Spreads = netlist.Spreads, Reason = reason, Remarks = [],
    };
}
