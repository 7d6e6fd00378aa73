using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit;

/// <summary>Elements between nodes. Immutable; a variant is another network with one element replaced.</summary>
/// <remarks>Node numbers run from 0 to <see cref="NodeCount"/> − 1. <see cref="Reference"/> is the node from which voltages are counted.</remarks>
public sealed record Network
{
    /// <summary>Checks and keeps the elements.</summary>
    /// <param name="nodeNames">One name a node.</param>
    /// <param name="reference">The node that is 0 V.</param>
    /// <param name="elements">Names unique; node numbers within range.</param>
    /// <exception cref="ArgumentException">A node number is out of range or a name stands twice; the message names it.</exception>
    public Network(IEnumerable<string> nodeNames, int reference, IEnumerable<Element> elements)
    {
        NodeNames = [.. nodeNames];
        Reference = reference;
        Elements = [.. elements];
        if (reference < 0 || reference >= NodeNames.Length)
            throw new ArgumentException($"The reference is node {reference}, but nodes run from 0 to {NodeNames.Length - 1}.", nameof(reference));
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var element in Elements)
        {
            if (!seen.Add(element.Name)) throw new ArgumentException($"Two elements are called '{element.Name}'.", nameof(elements));
            foreach (var node in Terminals.Of(element))
            {
                if (node < 0 || node >= NodeNames.Length)
                    throw new ArgumentException($"Element '{element.Name}' is on node {node}, but nodes run from 0 to {NodeNames.Length - 1}.", nameof(elements));
            }
        }
    }

    /// <summary>What each node is called in messages.</summary>
    public ImmutableArray<string> NodeNames { get; }
    /// <summary>The node that is 0 V.</summary>
    public int Reference { get; }
    /// <summary>All elements, in the order given.</summary>
    public ImmutableArray<Element> Elements { get; }
    /// <summary>How many nodes.</summary>
    public int NodeCount => NodeNames.Length;

    /// <summary>The same network with one element in place of the one of its name.</summary>
    /// <exception cref="ArgumentException">No element has that name.</exception>
    public Network With(Element element)
    {
        for (var i = 0; i < Elements.Length; i++)
            if (Elements[i].Name == element.Name) return new(NodeNames, Reference, Elements.SetItem(i, element));
        throw new ArgumentException($"No element is called '{element.Name}'.", nameof(element));
    }

    /// <summary>The same network with values changed, as a variant of <see cref="Batch"/> has them; what is not in it is passed over.</summary>
    /// <exception cref="ArgumentException">An element has no such parameter.</exception>
    public Network Changed(IEnumerable<(string Element, Parameter Parameter, double Value)> changes)
    {
        var changed = Elements.ToBuilder();
        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < changed.Count; i++) places[changed[i].Name] = i;
        foreach (var (element, parameter, value) in changes)
            if (places.TryGetValue(element, out var i)) changed[i] = Valued(changed[i], parameter, value);
        return new(NodeNames, Reference, changed);
    }

    // A capacitor's ohms are its leak, a coil's and a fuse's their own: they keep what else they are.
    private static Element Valued(Element element, Parameter parameter, double value) => (element, parameter) switch
    {
        (Capacitor c, Parameter.Ohms) => c with { LeakOhms = value },
        (Inductor l, Parameter.Ohms) => l with { Ohms = value },
        (Fuse f, Parameter.Ohms) => f with { Ohms = value },
        (Filament f, Parameter.Ohms) => f with { RatedAmperes = f.RatedVolts / value },
        (Thermistor t, Parameter.Ohms) => t with { ColdOhms = value },
        (Switch s, Parameter.Ohms) => s with { Closed = !(value > 1e3) },
        _ => Variants.Placed.With(element, parameter, value),
    };

    /// <summary>The same network with further elements.</summary>
    public Network Adding(params IEnumerable<Element> more) => new(NodeNames, Reference, Elements.Concat(more));
}
