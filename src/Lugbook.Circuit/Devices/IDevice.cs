using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Devices;

/// <summary>A non-linear element as the solver sees it: terminal voltages in, terminal currents and their derivatives out.</summary>
internal interface IDevice
{
    /// <summary>Number of terminals, 2 to 5.</summary>
    static abstract int Terminals { get; }
    /// <summary>Numbers that describe one such device.</summary>
    static abstract int Parameters { get; }
    /// <summary>Computes one device in all lanes.</summary>
    /// <param name="p">Its parameters.</param>
    /// <param name="v">Voltage of each terminal to the reference, V.</param>
    /// <param name="i">Out: current into the device at each terminal, A; they add up to 0.</param>
    /// <param name="g">Out: di[t]/dv[u] at t·Terminals + u, S.</param>
    static abstract void Evaluate<T>(ReadOnlySpan<T> p, ReadOnlySpan<T> v, Span<T> i, Span<T> g) where T : unmanaged, ILane<T>;
}
