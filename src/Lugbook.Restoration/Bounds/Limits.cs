using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Bounds;

/// <summary>The limits of a set, and which of them a variant passes.</summary>
internal sealed class Limits
{
    // A tenth more or less of a valve's current is where sound or gain is heard to change; common practice, no source.
    private const double CurrentShare = 0.1;
    private const double LeastAmperes = 20e-6;

    private readonly (string Element, string Valve, Element Law, double Amperes)[] _valves;
    private readonly (string Lug, int Node, double Low, double High)[] _pins;
    private readonly (string Part, Element[] Elements, double Rated)[] _resistors;
    private readonly (string Part, int A, int B, double Rated)[] _capacitors;

    public Limits(SolveResult solved, double[] nominal, IReadOnlyDictionary<int, (double Low, double High)> healthy)
    {
        var direct = solved.Direct!;
        var elements = direct.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        _valves = [.. solved.Netlist.Valves.Where(v => elements[v.Element] is Triode or Pentode or Converter).Select(v => (v.Element, v.Valve, elements[v.Element], Cathode(elements[v.Element], nominal)))];
        _pins = [.. solved.Netlist.Map.Nodes.SelectMany(n => n.Pins.Select(p => (Node: n, Pin: p))).Where(x => IsWatched(x.Pin) && healthy.ContainsKey(x.Node.Index))
            .DistinctBy(x => x.Node.Index).Select(x => Band(x.Pin.Lug, x.Node.Index, nominal[x.Node.Index], healthy[x.Node.Index]))];
        var book = solved.Netlist.Map.Book;
        _resistors = [.. book.Parts.Where(p => p.Kind == PartKind.Resistor && p.RatedWatts is > 0).Select(p => (p.Name, solved.Netlist.ElementsOf(p.Name).Where(elements.ContainsKey).Select(e => elements[e]).ToArray(), p.RatedWatts!.Value))];
        _capacitors = [.. book.Parts.Where(p => p.Kind.IsFixedCapacitor() && p.RatedVolts is > 0)
            .Select(p => (p.Name, A: solved.Netlist.Map.NodeOf(p.LeadA)?.Index ?? -1, B: solved.Netlist.Map.NodeOf(p.LeadB)?.Index ?? -1, p.RatedVolts!.Value)).Where(c => c.A >= 0 && c.B >= 0)];
        NominalPassed = [.. Passed(nominal, null, null).Select(p => (p.Kind, p.Place))];
    }

    /// <summary>Limits that the set passes as it was designed; they are not laid at a part's door.</summary>
    private HashSet<(string, string)> NominalPassed { get; } = [];

    /// <summary>The first limit that a variant passes beyond those of the nominal set; null when it passes none.</summary>
    /// <param name="volts">The variant's voltages.</param>
    /// <param name="changed">The part that was changed; its own watts are computed with its new value.</param>
    /// <param name="element">Its element with the new value.</param>
    public PassedLimit? First(ReadOnlySpan<double> volts, string changed, Element element)
    {
        return Passed(volts.ToArray(), changed, element).FirstOrDefault(p => !NominalPassed.Contains((p.Kind, p.Place)));
    }

    private IEnumerable<PassedLimit> Passed(double[] volts, string? changed, Element? element)
    {
        foreach (var (part, a, b, rated) in _capacitors)
        {
            var across = Math.Abs(volts[a] - volts[b]);
            if (part != changed && across > rated) yield return new("volts", part, Say($"{part} has {across:0} V across it, more than the {rated:0} V marked"));
        }
        foreach (var (part, elements, rated) in _resistors)
        {
            double watts = 0;
            foreach (var e in part == changed && element is not null ? [element] : elements)
                foreach (var (node, amperes) in Currents.Into(e, volts)) watts += volts[node] * amperes;
            if (watts > rated) yield return new("watts", part, Say($"{part} takes {watts:0.##} W, more than the {rated:0.##} W marked"));
        }
        foreach (var (_, valve, law, nominal) in _valves)
        {
            if (Math.Abs(nominal) < LeastAmperes) continue;
            var amperes = Cathode(law, volts);
            if (Math.Abs(amperes / nominal - 1) > CurrentShare)
                yield return new("valve-current", valve, Say($"{valve}'s current goes from {nominal * 1e3:0.##} to {amperes * 1e3:0.##} mA"));
        }
        foreach (var (lug, node, low, high) in _pins)
            if (volts[node] < low || volts[node] > high)
                yield return new("reading", lug, Say($"{lug} reads {volts[node]:0.#} V, outside the {low:0.#} to {high:0.#} V of healthy sets"));
    }

    private static bool IsWatched(ValvePin pin) => pin.Has(ElectrodeKind.Plate) || pin.Has(ElectrodeKind.Screen) || pin.Has(ElectrodeKind.Cathode);

    // Wide enough that no reading that people would call the same is called a limit.
    private static (string, int, double, double) Band(string lug, int node, double nominal, (double Low, double High) healthy)
    {
        var margin = Math.Max(0.05 * Math.Abs(nominal), 0.5);
        return (lug, node, Math.Min(healthy.Low, nominal - margin), Math.Max(healthy.High, nominal + margin));
    }

    private static double Cathode(Element law, ReadOnlySpan<double> volts) => -Currents.Into(law, volts)[^1].Amperes;

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
