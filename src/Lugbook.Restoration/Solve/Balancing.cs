using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;

namespace Lugbook.Restoration.Solve;

/// <summary>Finds the currents and boosts that declared voltages imply.</summary>
internal static class Balancing
{
    private const double Amperes = 1e-7, Volts = 1e-3;

    /// <summary>The network with its stand-ins at the values that balance.</summary>
    public static Network Of(Network network, ImmutableArray<Balance> balances, int rounds)
    {
        for (var round = 0; round < rounds && !balances.IsEmpty; round++)
        {
            var volts = OperatingPoint.Of(network).Volts.AsSpan();
            var settled = true;
            var next = network;
            foreach (var b in balances)
            {
                var element = network.Elements.First(e => e.Name == b.Element);
                if (element is CurrentDrain drain)
                {
                    // The cathode delivers what the valve passes; its declared grids took their part of it.
                    double sum = 0;
                    foreach (var node in b.Nodes) sum += Currents.OutOf(network, node, volts);
                    sum = Math.Max(sum, 0);
                    settled &= Math.Abs(sum - drain.Amperes) < Amperes;
                    next = next.With(drain with { Amperes = sum });
                }
                else if (element is Battery boost)
                {
                    var missing = b.Volts - volts[b.Nodes[0]];
                    settled &= Math.Abs(missing) < Volts;
                    next = next.With(boost with { Volts = boost.Volts + missing });
                }
            }
            network = next;
            if (settled) break;
        }
        return network;
    }

    /// <summary>The values found, in another network of the same elements.</summary>
    public static Network Carried(Network to, Network found, ImmutableArray<Balance> balances)
    {
        foreach (var b in balances) to = to.With(found.Elements.First(e => e.Name == b.Element));
        return to;
    }
}
