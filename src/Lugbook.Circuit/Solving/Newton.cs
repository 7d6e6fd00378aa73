using System.Runtime.CompilerServices;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Linear;

namespace Lugbook.Circuit.Solving;

/// <summary>Finds the node voltages at which every node's currents add up to nothing. Allocates only when made.</summary>
/// <remarks>
/// Nodes with nothing but resistances are eliminated once (Schur complement; Golub and Van Loan, Matrix Computations, §3.2.11); Newton's method runs on the nodes of valves and diodes alone, with halved
/// steps while neither the residual falls nor the step that the old slopes would ask for at the new point (natural monotonicity test: Deuflhard, Newton Methods for Nonlinear Problems, §3.3). The
/// whole network is checked at the end and, where rounding left too much, gone through again. Each lane stops on its own, so a variant's answer does not depend on its neighbours.
/// </remarks>
internal sealed class Newton<T> where T : unmanaged, ILane<T>
{
    /// <summary>Currents at every node must add up to less than this, A; the promise made outside is 1 nA.</summary>
    public const double ResidualAmperes = 1e-10;
    // A step below StepVolts ends the search; so does a whole step below SureVolts that leaves no residual: what is left falls with its square.
    private const double StepVolts = 1e-7, SureVolts = 1e-4;
    private const int Halvings = 8, Refinements = 4, Polishes = 2;

    private readonly Assembly _assembly;
    private readonly Factor<T> _factor;
    private readonly Devices<T> _devices;
    private readonly int[] _late, _lateNodes;
    private readonly T[] _residual, _right, _moved, _best, _start, _unbalanced, _step, _simple;
    private T _good;
    private Numbers<T>? _prepared;
    private (int Version, double Shunt) _preparedAs;

    public Newton(Assembly assembly)
    {
        _assembly = assembly;
        _factor = new(assembly.Pattern);
        _devices = new(assembly);
        _residual = new T[assembly.NodeNames.Length];
        var unknowns = assembly.Pattern.Size;
        (_right, _moved, _best, _start) = (new T[unknowns], new T[unknowns], new T[unknowns], new T[unknowns]);
        (_unbalanced, _step, _simple) = (new T[unknowns], new T[unknowns], new T[unknowns]);
        _lateNodes = assembly.LateNodes;
        _late = [.. _lateNodes.Select(n => assembly.UnknownOf[n])];
    }

    /// <summary>The whole Jacobian's factors where <see cref="Refactor"/> or <see cref="FactorAt"/> was last asked for; a solution leaves others.</summary>
    public Factor<T> Factor => _factor;

    /// <summary>Current out of each joined node at the last point evaluated, A; at given nodes what their source supplies.</summary>
    public ReadOnlySpan<T> Residual => _residual;

    /// <summary>Where <see cref="Solve"/> may be told that it starts.</summary>
    public void Remember(double[] volts) => _devices.Remember(volts);

    /// <summary>Whether a lane settled in the last solution.</summary>
    public bool HasSettled(int lane) => T.Lane(_good, lane) > 0;

    /// <summary>Solves in place.</summary>
    /// <param name="numbers">The variants.</param>
    /// <param name="volts">In: where to start. Out: the solution. One value a joined node.</param>
    /// <param name="shunt">An extra conductance from every unknown node to 0 V, S; 0 in an answer.</param>
    /// <param name="steps">At most so many.</param>
    /// <param name="remembered">It starts at the volts given to <see cref="Remember"/>.</param>
    /// <returns>True when every lane has settled.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Solve(Numbers<T> numbers, Span<T> volts, double shunt, int steps, bool remembered = false)
    {
        var (zero, one, half) = (T.Of(0), T.Of(1), T.Of(0.5));
        for (var n = 0; n < volts.Length; n++) if (_assembly.UnknownOf[n] < 0) volts[n] = numbers.GivenVolts[n];
        Prepare(numbers, shunt);
        Linear(numbers, volts, shunt);
        var (frozen, rested) = (zero, zero);
        for (var round = 0; ; round++)
        {
            for (var u = 0; u < _right.Length; u++) _right[u] = -_residual[_assembly.NodeOfUnknown[u]];
            _factor.ForwardEarly(_right);
            var settled = Settle(numbers, volts, frozen, steps, remembered && round == 0);
            rested = T.WhereLess(frozen, half, settled, rested);
            foreach (var u in _late) _right[u] = _moved[u];
            _factor.BackEarly(_right);
            for (var k = 0; k < _assembly.Pattern.Early; k++)
            {
                var u = _assembly.Pattern.Order[k];
                var n = _assembly.NodeOfUnknown[u];
                volts[n] = T.WhereLess(frozen, half, volts[n] + _right[u], volts[n]);
            }
            Linear(numbers, volts, shunt);
            var largest = zero;
            foreach (var n in _assembly.NodeOfUnknown) largest = T.Max(largest, T.Abs(_residual[n] + _devices.Amperes[n]));
            var good = _good = T.WhereLess(largest, T.Of(ResidualAmperes), rested, zero);
            // Gone through again is only what settled and was spoilt by rounding, or is frail.
            var again = T.WhereLess(frozen, half, T.Max(rested - good, round < Polishes ? T.Min(numbers.Frail, rested) : zero), zero);
            if (T.Largest(again) == 0 || round == Refinements)
            {
                for (var n = 0; n < _residual.Length; n++) _residual[n] += _devices.Amperes[n];
                return T.Largest(one - good) == 0;
            }
            frozen = one - again;
        }
    }

    /// <summary>Factors the whole Jacobian at the solution just found: during the search the last step's slopes are a step behind.</summary>
    public void Refactor()
    {
        _factor.Restore();
        _devices.Stamp(_factor.Values);
        _factor.DecomposeLate();
    }

    /// <summary>Factors the whole Jacobian at these volts, and leaves the residual there.</summary>
    public void FactorAt(Numbers<T> numbers, ReadOnlySpan<T> volts, double shunt)
    {
        Prepare(numbers, shunt);
        Linear(numbers, volts, shunt);
        _devices.Evaluate(numbers, volts);
        for (var n = 0; n < _residual.Length; n++) _residual[n] += _devices.Amperes[n];
        Refactor();
    }

    /// <summary>Leaves in <see cref="Residual"/> what the elements alone make of these volts, without insulation and shunts.</summary>
    public void Evaluate(Numbers<T> numbers, ReadOnlySpan<T> volts)
    {
        Elements(numbers, volts);
        _devices.Evaluate(numbers, volts);
        for (var n = 0; n < _residual.Length; n++) _residual[n] += _devices.Amperes[n];
    }

    /// <summary>Newton's steps on the late rows; 1 in lanes that have settled.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private T Settle(Numbers<T> numbers, Span<T> volts, T frozen, int steps, bool remembered)
    {
        var (zero, one, half) = (T.Of(0), T.Of(1), T.Of(0.5));
        for (var k = 0; k < _late.Length; k++) (_moved[_late[k]], _start[_late[k]]) = (zero, volts[_lateNodes[k]]);
        if (remembered) _devices.Recall(numbers);
        else _devices.Evaluate(numbers, volts);
        var norm = Unbalanced();
        var done = frozen;
        for (var step = 0; step < steps; step++)
        {
            Refactor();
            _unbalanced.CopyTo(_step, 0);
            _factor.SolveLate(_step);
            var largest = Largest(_step);
            // A lane that has settled takes no further step, whatever the others do. What was only remembered settles nothing.
            if (step > 0 || !remembered) done = T.Max(done, T.WhereLess(norm, T.Of(ResidualAmperes), T.WhereLess(largest, T.Of(StepVolts), one, zero), zero));
            var share = T.WhereLess(done, half, one, zero);
            if (T.Largest(share) == 0) return done;

            _moved.CopyTo(_best, 0);
            var before = norm;
            for (var halving = 0; ; halving++)
            {
                for (var k = 0; k < _late.Length; k++)
                {
                    var u = _late[k];
                    _moved[u] = T.MultiplyAdd(share, _step[u], _best[u]);
                    volts[_lateNodes[k]] = _start[u] + _moved[u];
                }
                _devices.Evaluate(numbers, volts);
                norm = Unbalanced();
                // NaN is not less, so it counts as grown.
                var grew = T.WhereLess(norm, T.Max(before * T.Of(1.000001), T.Of(ResidualAmperes)), zero, one);
                if (T.Largest(grew) == 0) break;
                _unbalanced.CopyTo(_simple, 0);
                _factor.SolveLate(_simple);
                grew = T.WhereLess(Largest(_simple), largest, zero, grew);
                // Lanes where both grew try half the step; the last halving is taken as it comes.
                if (T.Largest(grew) == 0 || halving == Halvings) break;
                share = T.WhereLess(grew, half, share, share * half);
            }
            if (remembered && step == 0) continue;
            var sure = T.WhereLess(half, share, T.WhereLess(largest, T.Of(SureVolts), one, zero), zero);
            done = T.Max(done, T.WhereLess(norm, T.Of(ResidualAmperes), sure, zero));
            if (T.AllAbove(done, 0.5)) break;
        }
        return done;
    }

    private T Largest(T[] step)
    {
        var largest = T.Of(0);
        foreach (var u in _late) largest = T.Max(largest, T.Abs(step[u]));
        return largest;
    }

    /// <summary>Currents into the late nodes that are not accounted for where volts stand now; returns the largest, A.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private T Unbalanced()
    {
        for (var k = 0; k < _late.Length; k++) _unbalanced[_late[k]] = _right[_late[k]] - _devices.Amperes[_lateNodes[k]];
        var entries = _assembly.Pattern.Late;
        var kept = _factor.Kept;
        for (var k = 0; k < entries.Length; k++) _unbalanced[entries[k].Row] = T.MultiplyAdd(-kept[k], _moved[entries[k].Column], _unbalanced[entries[k].Row]);
        return Largest(_unbalanced);
    }

    /// <summary>Factors of the early rows for these conductances; nothing to do where none has changed.</summary>
    private void Prepare(Numbers<T> numbers, double shunt)
    {
        if (ReferenceEquals(_prepared, numbers) && _preparedAs == (numbers.Version, shunt)) return;
        var values = _factor.Values;
        values.Clear();
        for (var k = 0; k < numbers.Siemens.Length; k++)
        {
            var g = numbers.Siemens[k];
            var slots = _assembly.ConductanceSlots.AsSpan(4 * k, 4);
            if (slots[0] >= 0) values[slots[0]] += g;
            if (slots[1] >= 0) values[slots[1]] -= g;
            if (slots[2] >= 0) values[slots[2]] -= g;
            if (slots[3] >= 0) values[slots[3]] += g;
        }
        var extra = T.Of(shunt);
        for (var u = 0; u < numbers.Insulation.Length; u++) values[Pattern.DiagonalSlot(u)] += numbers.Insulation[u] + extra;
        _factor.DecomposeEarly();
        (_prepared, _preparedAs) = (numbers, (numbers.Version, shunt));
    }

    /// <summary>Currents of resistances, sources, insulation and shunts, into <see cref="Residual"/>.</summary>
    private void Linear(Numbers<T> numbers, ReadOnlySpan<T> volts, double shunt)
    {
        Elements(numbers, volts);
        var extra = T.Of(shunt);
        var insulation = numbers.Insulation;
        for (var u = 0; u < insulation.Length; u++)
        {
            var n = _assembly.NodeOfUnknown[u];
            _residual[n] = T.MultiplyAdd(insulation[u] + extra, volts[n], _residual[n]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Elements(Numbers<T> numbers, ReadOnlySpan<T> volts)
    {
        var residual = _residual.AsSpan();
        var siemens = numbers.Siemens;
        residual.Clear();
        var conductances = _assembly.Conductances;
        for (var k = 0; k < siemens.Length; k++)
        {
            var (_, a, b, _) = conductances[k];
            var i = siemens[k] * (volts[a] - volts[b]);
            residual[a] += i;
            residual[b] -= i;
        }
        var drains = _assembly.Drains;
        for (var k = 0; k < drains.Length; k++)
        {
            residual[drains[k].A] += numbers.Amperes[k];
            residual[drains[k].B] -= numbers.Amperes[k];
        }
    }
}
