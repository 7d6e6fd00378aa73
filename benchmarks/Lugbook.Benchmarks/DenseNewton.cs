using Lugbook.Circuit;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;
using Lugbook.Circuit.Variants;
using MathNet.Numerics.LinearAlgebra;

namespace Lugbook.Benchmarks;

/// <summary>The same equations, start, damping and end as the engine's Newton iteration, one variant after the other, each step by the dense LU factors of MathNet.Numerics.</summary>
internal sealed class DenseNewton
{
    private const double ResidualAmperes = 1e-10, StepVolts = 1e-7, SureVolts = 1e-4;
    private const int Steps = 120, Halvings = 8;

    private readonly Assembly _assembly;
    private readonly int[] _joinedOf;
    private readonly Write[] _writes;
    private readonly Numbers<One> _numbers;
    private readonly Ties _ties;
    private readonly double[] _nominal, _volts, _before, _residual;
    private readonly Matrix<double> _matrix;
    private readonly Vector<double> _right;

    /// <summary>Prepares.</summary>
    /// <param name="network">As <see cref="Batch.NetworkOf"/> gives it: leakages in place.</param>
    /// <param name="varied">As given to the batch.</param>
    public DenseNewton(Network network, IEnumerable<Varied> varied)
    {
        var what = varied.ToArray();
        var closed = network;
        foreach (var w in what)
            if (network.Elements.First(e => e.Name == w.Element) is Resistor { Ohms: double.PositiveInfinity } open) closed = closed.With(open with { Ohms = 1e9 });
        (_assembly, _joinedOf) = Direct.Of(closed);
        _writes = [.. what.SelectMany((w, k) => Writer.Of(_assembly, _joinedOf, network.Elements.First(e => e.Name == w.Element), w, k))];
        _numbers = new(_assembly);
        _ties = new(_assembly, _writes);
        var volts = new One[_assembly.NodeNames.Length];
        Settling.Solve(_assembly, new(_assembly), new(_assembly), volts);
        _nominal = [.. volts.Select(v => v.Value)];
        _volts = new double[volts.Length];
        _before = new double[volts.Length];
        _residual = new double[volts.Length];
        _matrix = Matrix<double>.Build.Dense(Unknowns, Unknowns);
        _right = Vector<double>.Build.Dense(Unknowns);
    }

    /// <summary>Equations.</summary>
    public int Unknowns => _assembly.NodeOfUnknown.Length;

    /// <summary>Solves one variant from the nominal point. False: it did not settle.</summary>
    public bool Solve(ReadOnlySpan<double> values, Span<double> volts)
    {
        Writer.Into(_writes, values, _numbers, 0);
        _ties.Insulate(_numbers, 0);
        _nominal.CopyTo(_volts, 0);
        for (var n = 0; n < _volts.Length; n++) if (_assembly.UnknownOf[n] < 0) _volts[n] = _numbers.GivenVolts[n].Value;
        var settled = false;
        var norm = Evaluate();
        for (var step = 0; step < Steps && !settled; step++)
        {
            for (var u = 0; u < Unknowns; u++) _right[u] = -_residual[_assembly.NodeOfUnknown[u]];
            var factors = _matrix.LU();
            var change = factors.Solve(_right);
            var largest = change.AbsoluteMaximum();
            settled = norm < ResidualAmperes && largest < StepVolts;
            if (settled) break;
            _volts.CopyTo(_before, 0);
            var (before, share) = (norm, 1.0);
            for (var halving = 0; ; halving++, share /= 2)
            {
                for (var u = 0; u < Unknowns; u++) _volts[_assembly.NodeOfUnknown[u]] = _before[_assembly.NodeOfUnknown[u]] + share * change[u];
                norm = Evaluate();
                if (norm < Math.Max(before * 1.000001, ResidualAmperes) || halving == Halvings) break;
                for (var u = 0; u < Unknowns; u++) _right[u] = -_residual[_assembly.NodeOfUnknown[u]];
                if (factors.Solve(_right).AbsoluteMaximum() < largest) break;
            }
            settled = share == 1 && largest < SureVolts && norm < ResidualAmperes;
        }
        for (var n = 0; n < volts.Length; n++) volts[n] = _volts[_joinedOf[n]];
        return settled || norm < ResidualAmperes;
    }

    private double Evaluate()
    {
        _matrix.Clear();
        Array.Clear(_residual);
        for (var k = 0; k < _assembly.Conductances.Length; k++)
        {
            var (_, a, b, _) = _assembly.Conductances[k];
            var siemens = _numbers.Siemens[k].Value;
            var amperes = siemens * (_volts[a] - _volts[b]);
            _residual[a] += amperes;
            _residual[b] -= amperes;
            Stamp(a, a, siemens);
            Stamp(a, b, -siemens);
            Stamp(b, a, -siemens);
            Stamp(b, b, siemens);
        }
        for (var k = 0; k < _assembly.Drains.Length; k++)
        {
            _residual[_assembly.Drains[k].A] += _numbers.Amperes[k].Value;
            _residual[_assembly.Drains[k].B] -= _numbers.Amperes[k].Value;
        }
        All(_assembly.Diodes, _numbers.Diodes);
        All(_assembly.Triodes, _numbers.Triodes);
        All(_assembly.Pentodes, _numbers.Pentodes);
        All(_assembly.Converters, _numbers.Converters);
        double largest = 0;
        for (var u = 0; u < Unknowns; u++)
        {
            var n = _assembly.NodeOfUnknown[u];
            _residual[n] += _numbers.Insulation[u].Value * _volts[n];
            _matrix[u, u] += _numbers.Insulation[u].Value;
        }
        foreach (var n in _assembly.NodeOfUnknown) largest = Math.Max(largest, Math.Abs(_residual[n]));
        return largest;
    }

    private void All<TDevice>(Bank<TDevice> bank, One[] parameters) where TDevice : IDevice
    {
        Span<One> v = stackalloc One[TDevice.Terminals];
        Span<One> i = stackalloc One[TDevice.Terminals];
        Span<One> g = stackalloc One[TDevice.Terminals * TDevice.Terminals];
        for (var k = 0; k < bank.Devices.Length; k++)
        {
            var nodes = bank.Devices[k].Nodes;
            for (var t = 0; t < nodes.Length; t++) v[t] = new(_volts[nodes[t]]);
            TDevice.Evaluate<One>(parameters.AsSpan(k * TDevice.Parameters, TDevice.Parameters), v, i, g);
            for (var t = 0; t < nodes.Length; t++)
            {
                _residual[nodes[t]] += i[t].Value;
                for (var u = 0; u < nodes.Length; u++) Stamp(nodes[t], nodes[u], g[t * nodes.Length + u].Value);
            }
        }
    }

    private void Stamp(int row, int column, double siemens)
    {
        var (r, c) = (_assembly.UnknownOf[row], _assembly.UnknownOf[column]);
        if (r >= 0 && c >= 0) _matrix.At(r, c, _matrix.At(r, c) + siemens);
    }
}
