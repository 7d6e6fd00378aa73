using System.Runtime.CompilerServices;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>Currents and slopes of all valves and diodes of an assembly. Allocates only when made.</summary>
internal sealed class Devices<T> where T : unmanaged, ILane<T>
{
    private readonly Assembly _assembly;
    private readonly T[] _diodes, _triodes, _pentodes, _converters;
    private Remembered[] _remembered = [];

    public Devices(Assembly assembly)
    {
        _assembly = assembly;
        Amperes = new T[assembly.NodeNames.Length];
        (_diodes, _triodes) = (new T[assembly.Diodes.Slots.Length], new T[assembly.Triodes.Slots.Length]);
        (_pentodes, _converters) = (new T[assembly.Pentodes.Slots.Length], new T[assembly.Converters.Slots.Length]);
    }

    /// <summary>Current out of each joined node into devices, at the last point evaluated, A.</summary>
    public T[] Amperes { get; }

    /// <summary>Evaluates all at these volts.</summary>
    public void Evaluate(Numbers<T> numbers, ReadOnlySpan<T> volts)
    {
        Array.Clear(Amperes);
        Evaluate(_assembly.Diodes, numbers.Diodes, volts, _diodes);
        Evaluate(_assembly.Triodes, numbers.Triodes, volts, _triodes);
        Evaluate(_assembly.Pentodes, numbers.Pentodes, volts, _pentodes);
        Evaluate(_assembly.Converters, numbers.Converters, volts, _converters);
    }

    /// <summary>Keeps currents and slopes of the assembly's own devices at a point where variants start.</summary>
    public void Remember(double[] volts)
    {
        _remembered = [Of(_assembly.Diodes, volts, 0), Of(_assembly.Triodes, volts, 1), Of(_assembly.Pentodes, volts, 2), Of(_assembly.Converters, volts, 1)];

        static Remembered Of<TDevice>(Bank<TDevice> bank, double[] volts, int perveance) where TDevice : IDevice
        {
            var n = TDevice.Terminals;
            var amperes = new One[bank.Devices.Length * n];
            var slopes = new One[bank.Slots.Length];
            for (var k = 0; k < bank.Devices.Length; k++)
            {
                var (_, nodes, parameters) = bank.Devices[k];
                TDevice.Evaluate<One>([.. parameters.Select(p => new One(p))], [.. nodes.Select(v => new One(volts[v]))], amperes.AsSpan(k * n, n), slopes.AsSpan(k * n * n, n * n));
            }
            return new([.. bank.Devices.Select(d => d.Nodes)], [.. bank.Devices.Select(d => 1 / d.Parameters[perveance])], perveance, TDevice.Parameters, [.. amperes.Select(a => a.Value)], [.. slopes.Select(g => g.Value)]);
        }
    }

    /// <summary>Puts what was remembered in place of an evaluation there, all currents taken to go with the perveance: good enough for a first step, at a tenth of the time.</summary>
    public void Recall(Numbers<T> numbers)
    {
        Array.Clear(Amperes);
        Recall(_remembered[0], numbers.Diodes, _diodes);
        Recall(_remembered[1], numbers.Triodes, _triodes);
        Recall(_remembered[2], numbers.Pentodes, _pentodes);
        Recall(_remembered[3], numbers.Converters, _converters);
    }

    private void Recall(Remembered from, T[] parameters, T[] slopes)
    {
        for (var k = 0; k < from.Nodes.Length; k++)
        {
            var nodes = from.Nodes[k];
            var n = nodes.Length;
            var share = parameters[k * from.Parameters + from.Perveance] * T.Of(from.OverPerveance[k]);
            for (var t = 0; t < n; t++) Amperes[nodes[t]] += share * T.Of(from.Amperes[k * n + t]);
            for (var s = 0; s < n * n; s++) slopes[k * n * n + s] = share * T.Of(from.Slopes[k * n * n + s]);
        }
    }

    private sealed record Remembered(int[][] Nodes, double[] OverPerveance, int Perveance, int Parameters, double[] Amperes, double[] Slopes);

    /// <summary>Adds the slopes of the last point to a matrix.</summary>
    public void Stamp(Span<T> values)
    {
        Stamp(_assembly.Diodes.Slots, _diodes, values);
        Stamp(_assembly.Triodes.Slots, _triodes, values);
        Stamp(_assembly.Pentodes.Slots, _pentodes, values);
        Stamp(_assembly.Converters.Slots, _converters, values);
    }

    private static void Stamp(int[] slots, T[] slopes, Span<T> values)
    {
        for (var k = 0; k < slots.Length; k++) if (slots[k] >= 0) values[slots[k]] += slopes[k];
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Evaluate<TDevice>(Bank<TDevice> bank, T[] parameters, ReadOnlySpan<T> volts, T[] slopes) where TDevice : IDevice
    {
        Span<T> v = stackalloc T[TDevice.Terminals];
        Span<T> i = stackalloc T[TDevice.Terminals];
        for (var k = 0; k < bank.Devices.Length; k++)
        {
            var nodes = bank.Devices[k].Nodes;
            for (var t = 0; t < nodes.Length; t++) v[t] = volts[nodes[t]];
            TDevice.Evaluate(parameters.AsSpan(k * TDevice.Parameters, TDevice.Parameters), v, i, slopes.AsSpan(k * v.Length * v.Length, v.Length * v.Length));
            for (var t = 0; t < nodes.Length; t++) Amperes[nodes[t]] += i[t];
        }
    }
}
