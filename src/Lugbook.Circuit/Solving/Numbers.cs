using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>The numbers of one variant, or of several side by side: all that may differ between variants of one assembly.</summary>
internal sealed class Numbers<T> where T : unmanaged, ILane<T>
{
    /// <summary>Nominal numbers in every lane.</summary>
    public Numbers(Assembly assembly)
    {
        Siemens = [.. assembly.Conductances.Select(c => T.Of(c.Siemens))];
        Amperes = [.. assembly.Drains.Select(d => T.Of(d.Amperes))];
        GivenVolts = [.. assembly.GivenVolts.Select(T.Of)];
        Diodes = [.. assembly.Diodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Triodes = [.. assembly.Triodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Pentodes = [.. assembly.Pentodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Converters = [.. assembly.Converters.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
    }

    public T[] Siemens { get; }
    public T[] Amperes { get; }
    public T[] GivenVolts { get; }
    public T[] Diodes { get; }
    public T[] Triodes { get; }
    public T[] Pentodes { get; }
    public T[] Converters { get; }
}
