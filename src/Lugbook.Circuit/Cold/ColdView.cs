using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Cold;

/// <summary>What a meter finds in a set that is unplugged and cold.</summary>
internal static class ColdView
{
    /// <summary>The elements that remain, each in its cold state. What is open is not among them; a dry rectifier stays a <see cref="Diode"/>.</summary>
    public static ImmutableArray<Element> Of(Network network) => [.. network.Elements.Select(Of).OfType<Element>()];

    /// <summary>One element in its cold state; null when it is open.</summary>
    public static Element? Of(Element element) => element switch
    {
        Filament e => new Resistor(e.Name, e.A, e.B, e.RatedVolts / e.RatedAmperes * e.ColdShare),
        Thermistor e => new Resistor(e.Name, e.A, e.B, e.ColdOhms),
        Fuse e => new Resistor(e.Name, e.A, e.B, e.Ohms),
        Diode e => e.Law.NeedsHeat ? null : e,
        // Valves do not emit, a gas regulator has not struck, the line is unplugged, sources are taken out.
        Triode or Pentode or Converter or GasRegulator or Mains or Battery or CurrentDrain or Declared => null,
        _ => element,
    };
}
