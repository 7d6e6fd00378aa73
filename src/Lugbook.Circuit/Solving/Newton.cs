using System.Runtime.CompilerServices;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Linear;

namespace Lugbook.Circuit.Solving;

/// <summary>Finds the node voltages at which every node's currents add up to nothing. Allocates only when made.</summary>
/// <remarks>
/// Newton's method with halved steps while the residual grows (Dennis and Schnabel, Numerical Methods for Unconstrained Optimization and
/// Nonlinear Equations, ch. 6). Each lane stops on its own, so a variant's answer does not depend on its neighbours.
/// </remarks>
internal sealed class Newton<T> where T : unmanaged, ILane<T>
{
    /// <summary>Currents at every node must add up to less than this, A; the promise made outside is 1 nA.</summary>
    public const double ResidualAmperes = 1e-10;
    private const double StepVolts = 1e-7;
    private const int Halvings = 8;

    private readonly Assembly _assembly;
    private readonly Factor<T> _factor;
    private readonly T[] _residual, _trial, _step, _best;

    public Newton(Assembly assembly)
    {
        _assembly = assembly;
        _factor = new(assembly.Pattern);
        _residual = new T[assembly.NodeNames.Length];
        _trial = new T[assembly.NodeNames.Length];
        _best = new T[assembly.NodeNames.Length];
        _step = new T[assembly.Pattern.Size];
    }

    /// <summary>The Jacobian's factors at the last point solved for.</summary>
    public Factor<T> Factor => _factor;

    /// <summary>Current out of each joined node that is not accounted for at the last point evaluated, A; at given nodes what their source supplies.</summary>
    public ReadOnlySpan<T> Residual => _residual;

    /// <summary>Solves in place.</summary>
    /// <param name="numbers">The variants.</param>
    /// <param name="volts">In: where to start. Out: the solution. One value a joined node.</param>
    /// <param name="shunt">An extra conductance from every unknown node to 0 V, S; 0 in an answer.</param>
    /// <param name="steps">At most so many.</param>
    /// <returns>True when every lane has settled.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Solve(Numbers<T> numbers, Span<T> volts, double shunt, int steps)
    {
        for (var n = 0; n < volts.Length; n++) if (_assembly.UnknownOf[n] < 0) volts[n] = numbers.GivenVolts[n];
        var extra = T.Of(shunt);
        var zero = T.Of(0);
        var one = T.Of(1);
        var norm = Evaluate(numbers, volts, extra, matrix: true);
        for (var step = 0; step < steps; step++)
        {
            _factor.Decompose();
            for (var u = 0; u < _step.Length; u++) _step[u] = -_residual[_assembly.NodeOfUnknown[u]];
            _factor.Solve(_step);

            // A lane that has settled takes no further step, whatever the others do.
            var largest = zero;
            for (var u = 0; u < _step.Length; u++) largest = T.Max(largest, T.Abs(_step[u]));
            var settled = Settled(norm, largest);
            var share = T.WhereLess(settled, T.Of(0.5), one, zero);
            if (T.Largest(share) == 0) return true;

            volts.CopyTo(_best);
            var bestNorm = norm;
            for (var halving = 0; ; halving++)
            {
                Move(volts, _best, share);
                norm = Evaluate(numbers, volts, extra, matrix: true);
                // Lanes whose residual grew (or became no number) try half the step; the last halving is taken as it comes.
                var grew = Grew(norm, bestNorm);
                if (T.Largest(grew) == 0 || halving == Halvings) break;
                share = T.WhereLess(grew, T.Of(0.5), share, share * T.Of(0.5));
            }
        }
        for (var u = 0; u < _step.Length; u++) _step[u] = zero;
        return T.Largest(norm) < ResidualAmperes;
    }

    private void Move(Span<T> volts, ReadOnlySpan<T> from, T share)
    {
        for (var u = 0; u < _step.Length; u++)
        {
            var n = _assembly.NodeOfUnknown[u];
            volts[n] = T.MultiplyAdd(share, _step[u], from[n]);
        }
    }

    /// <summary>1 in lanes whose residual and step are both small, else 0.</summary>
    private static T Settled(T norm, T step)
    {
        var small = T.WhereLess(norm, T.Of(ResidualAmperes), T.Of(1), T.Of(0));
        return T.WhereLess(step, T.Of(StepVolts), small, T.Of(0));
    }

    private static T Grew(T norm, T before)
    {
        var limit = T.Max(before * T.Of(1.000001), T.Of(ResidualAmperes));
        return T.WhereLess(norm, limit, T.Of(0), T.Of(1));   // NaN is not less, so it counts as grown
    }

    /// <summary>Currents out of every node and, if wanted, their derivatives; returns the largest current at an unknown node, per lane.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public T Evaluate(Numbers<T> numbers, ReadOnlySpan<T> volts, T shunt, bool matrix)
    {
        var residual = _residual.AsSpan();
        var values = _factor.Values;
        residual.Clear();
        if (matrix) values.Clear();

        var conductances = _assembly.Conductances;
        for (var k = 0; k < conductances.Length; k++)
        {
            var g = numbers.Siemens[k];
            var (_, a, b, _) = conductances[k];
            var i = g * (volts[a] - volts[b]);
            residual[a] += i;
            residual[b] -= i;
            if (!matrix) continue;
            var slots = _assembly.ConductanceSlots.AsSpan(4 * k, 4);
            if (slots[0] >= 0) values[slots[0]] += g;
            if (slots[1] >= 0) values[slots[1]] -= g;
            if (slots[2] >= 0) values[slots[2]] -= g;
            if (slots[3] >= 0) values[slots[3]] += g;
        }
        var drains = _assembly.Drains;
        for (var k = 0; k < drains.Length; k++)
        {
            residual[drains[k].A] += numbers.Amperes[k];
            residual[drains[k].B] -= numbers.Amperes[k];
        }
        Devices(_assembly.Diodes, numbers.Diodes, volts, residual, values, matrix);
        Devices(_assembly.Triodes, numbers.Triodes, volts, residual, values, matrix);
        Devices(_assembly.Pentodes, numbers.Pentodes, volts, residual, values, matrix);
        Devices(_assembly.Converters, numbers.Converters, volts, residual, values, matrix);

        var largest = T.Of(0);
        for (var u = 0; u < _assembly.NodeOfUnknown.Length; u++)
        {
            var n = _assembly.NodeOfUnknown[u];
            residual[n] = T.MultiplyAdd(shunt, volts[n], residual[n]);
            if (matrix) values[Pattern.DiagonalSlot(u)] += shunt;
            largest = T.Max(largest, T.Abs(residual[n]));
        }
        return largest;
    }

    private static void Devices<TDevice>(Bank<TDevice> bank, T[] parameters, ReadOnlySpan<T> volts, Span<T> residual, Span<T> values, bool matrix)
        where TDevice : IDevice
    {
        Span<T> v = stackalloc T[TDevice.Terminals];
        Span<T> i = stackalloc T[TDevice.Terminals];
        Span<T> g = stackalloc T[TDevice.Terminals * TDevice.Terminals];
        for (var k = 0; k < bank.Devices.Length; k++)
        {
            var nodes = bank.Devices[k].Nodes;
            for (var t = 0; t < nodes.Length; t++) v[t] = volts[nodes[t]];
            TDevice.Evaluate(parameters.AsSpan(k * TDevice.Parameters, TDevice.Parameters), v, i, g);
            for (var t = 0; t < nodes.Length; t++) residual[nodes[t]] += i[t];
            if (!matrix) continue;
            var slots = bank.Slots.AsSpan(k * g.Length, g.Length);
            for (var s = 0; s < g.Length; s++) if (slots[s] >= 0) values[slots[s]] += g[s];
        }
    }
}
