using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Netlist;

/// <summary>Collects what the parts become.</summary>
internal sealed class NetBuilder(MapResult map, ValveHandbook handbook)
{
    private readonly HashSet<string> _names = new(StringComparer.Ordinal);
    private readonly List<string> _nodes = [.. map.Nodes.Select(n => n.Name)];

    public MapResult Map { get; } = map;
    public ValveHandbook Handbook { get; } = handbook;
    public List<Element> Elements { get; } = [];
    public List<Origin> Origins { get; } = [];
    public List<Spread> Spreads { get; } = [];
    public List<Unknown> Unknowns { get; } = [];
    public List<ValveElement> Valves { get; } = [];
    public List<string> WarmOnly { get; } = [];
    public List<Balance> Balances { get; } = [];
    public ImmutableDictionary<string, string>.Builder Heaters { get; } = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
    public IReadOnlyList<string> Nodes => _nodes;

    /// <summary>The node of a lug, or null.</summary>
    public int? Node(string? lug) => Map.NodeOf(lug)?.Index;

    /// <summary>Both ends of a part, or null with the reason noted.</summary>
    public (int A, int B)? Ends(Part part)
    {
        if (Node(part.LeadA) is { } a && Node(part.LeadB) is { } b) return (a, b);
        Unknown(part.Name, $"{part.Name} has a lead on no known lug, so it is left out.");
        return null;
    }

    /// <summary>A name that no element has yet: two parts of one name are a contradiction, not a crash.</summary>
    public string Free(string name)
    {
        var free = name;
        for (var k = 2; _names.Contains(free); k++) free = $"{name} ({k})";
        return free;
    }

    public string Add(Element element, string position, string what = "")
    {
        var named = element with { Name = Free(element.Name) };
        _names.Add(named.Name);
        Elements.Add(named);
        Origins.Add(new(named.Name, position, what));
        return named.Name;
    }

    public int Inner(string name)
    {
        _nodes.Add(name);
        return _nodes.Count - 1;
    }

    public void Unknown(string place, string sentence, params ImmutableArray<string> elements) => Unknowns.Add(new(place, sentence, elements));

    /// <summary>A value that nobody entered, between two ends on a scale of ratios.</summary>
    public void Guess(string element, Parameter parameter, double nominal, double low, double high) => Spreads.Add(new(element, parameter, nominal, low, high, SpreadCause.Unknown, Geometric: true));

    public void Tolerance(string element, Part part, double ohms)
    {
        var (minus, plus) = part.Tolerance is { } t ? (t.Minus, t.Plus) : (0.2, 0.2);
        if (minus > 0 || plus > 0) Spreads.Add(new(element, Parameter.Ohms, ohms, ohms * Math.Max(1 - minus, 0.01), ohms * (1 + plus), SpreadCause.Tolerance));
    }
}
