using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Powering;

/// <summary>What of a set counts over a cycle of the line.</summary>
internal static class Reduction
{
    /// <summary>The network without small capacitors; small coils are their resistance.</summary>
    public static Network Of(Network network, PoweredOptions options) => new(network.NodeNames, network.Reference, network.Elements.SelectMany(e => Kept(e, options)));

    /// <summary>Elements whose current over a cycle is worth knowing.</summary>
    public static ImmutableArray<string> Followed(Network reduced) => [.. reduced.Elements.Where(e => e is Capacitor or Filament or Fuse or Mains).Select(e => e.Name)];

    private static IEnumerable<Element> Kept(Element element, PoweredOptions options)
    {
        switch (element)
        {
            case Capacitor c when c.Farads < options.LeastFarads:
                if (double.IsFinite(c.LeakOhms)) yield return new Resistor(c.Name, c.A, c.B, c.LeakOhms);
                break;
            case Inductor l when l.Henries < options.LeastHenries:
                yield return new Resistor(l.Name, l.A, l.B, l.Ohms);
                break;
            default:
                yield return element;
                break;
        }
    }
}
