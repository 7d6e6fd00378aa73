using Lugbook.Circuit.Lanes;

namespace Lugbook.Circuit.Solving;

/// <summary>The numbers of one variant, or of several side by side: all that may differ between variants of one assembly.</summary>
internal sealed class Numbers<T> where T : unmanaged, ILane<T>
{
    private readonly T[] _siemens, _insulation;

    /// <summary>Nominal numbers in every lane.</summary>
    public Numbers(Assembly assembly)
    {
        _siemens = [.. assembly.Conductances.Select(c => T.Of(c.Siemens))];
        _insulation = [.. assembly.Insulation.Select(T.Of)];
        Amperes = [.. assembly.Drains.Select(d => T.Of(d.Amperes))];
        GivenVolts = [.. assembly.GivenVolts.Select(T.Of)];
        Diodes = [.. assembly.Diodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Triodes = [.. assembly.Triodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Pentodes = [.. assembly.Pentodes.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
        Converters = [.. assembly.Converters.Devices.SelectMany(d => d.Parameters).Select(T.Of)];
    }

    /// <summary>The same numbers, to be changed apart.</summary>
    public Numbers(Assembly assembly, Numbers<T> from) : this(assembly)
    {
        from._siemens.CopyTo(_siemens, 0);
        from._insulation.CopyTo(_insulation, 0);
        from.Amperes.CopyTo(Amperes, 0);
        from.GivenVolts.CopyTo(GivenVolts, 0);
        from.Diodes.CopyTo(Diodes, 0);
        from.Triodes.CopyTo(Triodes, 0);
        from.Pentodes.CopyTo(Pentodes, 0);
        from.Converters.CopyTo(Converters, 0);
        Frail = from.Frail;
    }

    /// <summary>Counts every change of a conductance: factors made before it are stale.</summary>
    public int Version { get; private set; }
    public ReadOnlySpan<T> Siemens => _siemens;
    /// <summary>From each unknown's node to 0 V, S: see <see cref="Assembly.Insulation"/>; a large one pins a node of a part that floats.</summary>
    public ReadOnlySpan<T> Insulation => _insulation;
    /// <summary>1 in lanes where a part may hang on next to nothing: beside an ohm within it, 10 TΩ is lost in the factors' rounding, so the solution is gone through again.</summary>
    public T Frail { get; set; }
    public T[] Amperes { get; }
    public T[] GivenVolts { get; }
    public T[] Diodes { get; }
    public T[] Triodes { get; }
    public T[] Pentodes { get; }
    public T[] Converters { get; }

    /// <summary>Sets a conductance in all lanes.</summary>
    public void Conduct(int conductance, double siemens)
    {
        _siemens[conductance] = T.Of(siemens);
        Version++;
    }

    /// <summary>Sets a conductance in one lane.</summary>
    public void Conduct(int conductance, int lane, double siemens)
    {
        Lane.Of(_siemens.AsSpan())[conductance * T.Width + lane] = siemens;
        Version++;
    }

    /// <summary>Sets an unknown's insulation in one lane.</summary>
    public void Insulate(int unknown, int lane, double siemens)
    {
        Lane.Of(_insulation.AsSpan())[unknown * T.Width + lane] = siemens;
        Version++;
    }
}
