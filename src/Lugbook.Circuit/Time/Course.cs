using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Time;

/// <summary>Keeps what a run through time is asked for.</summary>
internal sealed class Course(Network network, Stepper stepper, TransientOptions options)
{
    private readonly ImmutableArray<double>.Builder _seconds = ImmutableArray.CreateBuilder<double>();
    private readonly ImmutableArray<ImmutableArray<double>>.Builder _volts = ImmutableArray.CreateBuilder<ImmutableArray<double>>();
    private readonly (Element Element, ImmutableArray<double>.Builder Amperes)[] _currents =
        [.. options.Currents.Select(n => (network.Elements.First(e => e.Name == n), ImmutableArray.CreateBuilder<double>()))];

    public bool Ended { get; private set; }

    public void Keep(double t)
    {
        var volts = ImmutableArray.CreateBuilder<double>(network.NodeCount);
        for (var n = 0; n < network.NodeCount; n++) volts.Add(stepper.NodeVolts(n));
        _seconds.Add(t);
        _volts.Add(volts.MoveToImmutable());
        foreach (var (element, amperes) in _currents) amperes.Add(stepper.Amperes(element, t));
        Ended = options.Until?.Invoke(_volts[^1]) ?? false;
    }

    public TimeCourse Done(Layout layout) => new(
        _seconds.ToImmutable(), _volts.ToImmutable(), _currents.ToImmutableDictionary(c => c.Element.Name, c => c.Amperes.ToImmutable()),
        layout.Stores.ToImmutableDictionary(s => s.Element.Name, s => stepper.State[s.State]),
        layout.Windings.Where(w => w.Element is Inductor).ToImmutableDictionary(w => w.Element.Name, w => stepper.State[w.State]));
}
