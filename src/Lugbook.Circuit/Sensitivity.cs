using System.Collections.Immutable;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit;

/// <summary>What of an element changes.</summary>
public enum Parameter
{
    /// <summary>Resistance, Ω: a resistor, a whole control, a winding (first, second … by index), leakage, a battery's own, a gas regulator's slope.</summary>
    Ohms,
    /// <summary>A control's position, a share.</summary>
    Position,
    /// <summary>Voltage of a battery or a declared node, running voltage of a gas regulator, V.</summary>
    Volts,
    /// <summary>Current of a drain, A.</summary>
    Amperes,
    /// <summary>K of a diode or valve: its emission.</summary>
    Perveance,
    /// <summary>µ of a triode, grid-to-screen µ of a pentode or converter.</summary>
    Mu,
    /// <summary>Peak of the oscillation on a converter's grid 1, V.</summary>
    OscillatorVolts,
}

/// <summary>How far nodes move with one parameter.</summary>
/// <param name="Element">The element's name.</param>
/// <param name="Parameter">What of it.</param>
/// <param name="Index">Which winding; 0 for all else.</param>
/// <param name="VoltsPerLog">dV/d(ln parameter) of each node asked for, V: a hundredth of it is the change for 1 %.</param>
public sealed record NodeSensitivity(string Element, Parameter Parameter, int Index, ImmutableArray<double> VoltsPerLog);

/// <summary>Sensitivity of node voltages at the operating point to every part.</summary>
public static class Sensitivity
{
    /// <summary>Solves the operating point, then one adjoint system a node asked for, all from one factorisation.</summary>
    /// <param name="network">The network.</param>
    /// <param name="nodes">Nodes of interest.</param>
    /// <returns>One row for each resistance, position, source, perveance and µ, in the order of the elements.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network.</exception>
    /// <exception cref="UnsolvableException">The operating point does not settle.</exception>
    /// <remarks>
    /// Adjoint method (Director and Rohrer, IEEE Trans. CT-16, 1969): Jᵀλ = e, dV/dp = −λᵀ·∂F/∂p. Derivatives are of first order: an open or shorted part is no small change
    /// (see <see cref="Batch"/>). A part of 0 Ω or ∞ Ω, and one between joined nodes, has none. A control within 10⁻⁶ of an end is taken at 10⁻⁶.
    /// </remarks>
    public static ImmutableArray<NodeSensitivity> Of(Network network, params IReadOnlyList<int> nodes) => At(network, nodes).Rows;

    /// <summary>The same, and the voltages at which they hold.</summary>
    /// <returns>Volts of every node, V, and the rows of <see cref="Of"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A node is not in the network.</exception>
    /// <exception cref="UnsolvableException">The operating point does not settle.</exception>
    public static (ImmutableArray<double> Volts, ImmutableArray<NodeSensitivity> Rows) At(Network network, IReadOnlyList<int> nodes)
    {
        foreach (var node in nodes)
            if (node < 0 || node >= network.NodeCount) throw new ArgumentOutOfRangeException(nameof(nodes), node, $"Nodes run from 0 to {network.NodeCount - 1}.");
        const double end = 1e-6;
        var inner = new Network(network.NodeNames, network.Reference,
            network.Elements.Select(e => e is Control c ? c with { Position = Math.Clamp(c.Position, end, 1 - end) } : e));
        var (assembly, joinedOf) = Direct.Of(inner);
        var solved = new One[assembly.NodeNames.Length];
        var newton = new Newton<One>(assembly);
        var numbers = new Numbers<One>(assembly);
        Settling.Solve(assembly, newton, numbers, solved);
        newton.FactorAt(numbers, solved, 0);
        ImmutableArray<double> volts = [.. joinedOf.Select(n => solved[n].Value)];
        var adjoints = nodes.Select(n => Adjoint(assembly, newton, joinedOf, joinedOf[n])).ToArray();

        var rows = ImmutableArray.CreateBuilder<NodeSensitivity>();
        foreach (var element in inner.Elements)
            foreach (var (parameter, index, change) in Changes.Of(element, volts))
                rows.Add(new(element.Name, parameter, index, [.. adjoints.Select(a => -change.Sum(c => a[c.Node] * c.Amperes))]));
        AddDeclared(rows, inner, volts, joinedOf, nodes, adjoints);
        return (volts, rows.ToImmutable());
    }

    private static double[] Adjoint(Assembly assembly, Newton<One> newton, int[] joinedOf, int joined)
    {
        var b = new One[assembly.NodeOfUnknown.Length];
        if (assembly.UnknownOf[joined] >= 0) b[assembly.UnknownOf[joined]] = new(1);
        newton.Factor.SolveTransposed(b);
        return [.. joinedOf.Select(n => assembly.UnknownOf[n] < 0 ? 0 : b[assembly.UnknownOf[n]].Value)];
    }

    // A given voltage moves what its conductances and valves carry: dV/dVgiven = −λᵀ·∂F/∂Vgiven, and 1 at the node itself.
    private static void AddDeclared(
        ImmutableArray<NodeSensitivity>.Builder rows, Network network, ImmutableArray<double> volts, int[] joinedOf, IReadOnlyList<int> nodes, double[][] adjoints)
    {
        foreach (var declared in network.Elements.OfType<Declared>())
        {
            var given = joinedOf[declared.Node];
            var result = new double[nodes.Count];
            for (var k = 0; k < nodes.Count; k++)
            {
                double sum = joinedOf[nodes[k]] == given ? 1 : 0;
                foreach (var element in network.Elements)
                {
                    foreach (var (row, column, siemens) in Changes.Conductances(element, volts))
                        if (joinedOf[column] == given) sum -= adjoints[k][row] * siemens;
                }
                result[k] = sum * declared.Volts;
            }
            rows.Add(new(declared.Name, Parameter.Volts, 0, [.. result]));
        }
    }
}
