using System.Runtime.CompilerServices;
using Lugbook.Circuit.Devices;
using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>Currents and slopes of all valves and diodes of an assembly. Allocates only when made.</summary>
internal sealed class Devices<T> where T : unmanaged, ILane<T>
{
    private readonly Assembly _assembly;
    private readonly T[] _diodes, _triodes, _pentodes, _converters;

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
