using System.Collections.Immutable;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit;

/// <summary>DC voltages of a network at rest.</summary>
/// <param name="Volts">Voltage of each node to the reference, V.</param>
/// <param name="FloatingNodes">Nodes whose part of the network nothing ties to the reference: their voltages count only among themselves.</param>
/// <param name="ResidualAmperes">Largest current that is not accounted for at any node, A; at most 1 nA.</param>
public sealed record OperatingPoint(ImmutableArray<double> Volts, ImmutableArray<int> FloatingNodes, double ResidualAmperes)
{
    /// <summary>Solves the network's direct currents and voltages.</summary>
    /// <exception cref="UnsolvableException">Nothing settled; the message names the node and the element.</exception>
    /// <remarks>
    /// Damped Newton from 0 V; if that fails, a shunt conductance from every node is lowered in steps; if that fails, the sources are raised in
    /// steps. Kirchhoff's current law is checked on the answer. Method and limits: docs/circuit.md.
    /// </remarks>
    public static OperatingPoint Of(Network network)
    {
        var (assembly, joinedOf) = Direct.Of(network);
        var volts = new One[assembly.NodeNames.Length];
        var newton = new Newton<One>(assembly);
        var residual = Settling.Solve(assembly, newton, new Numbers<One>(assembly), volts);
        var floating = assembly.Floating;
        return new(
            [.. joinedOf.Select(n => volts[n].Value)],
            [.. joinedOf.Select((n, i) => (n, i)).Where(x => floating.Contains(x.n)).Select(x => x.i)],
            residual);
    }
}
