using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Judge;

/// <summary>What a bad part would do where it sits: shorted or leaking capacitors, open resistors, solved as variants.</summary>
internal static class Stakes
{
    private const double ShortOhms = 1;
    private const double SmallLeakOhms = 100e3;

    /// <summary>By position; parts without an element, or whose failure harms nothing, are not in it.</summary>
    public static IReadOnlyDictionary<string, Stake> Of(SolveResult solved)
    {
        var stakes = new Dictionary<string, Stake>(StringComparer.OrdinalIgnoreCase);
        if (solved.Direct is not { } direct) return stakes;
        var tries = Tries(solved, direct).ToArray();
        if (tries.Length == 0) return stakes;
        VariantTable table;
        BatchResult result;
        try
        {
            table = new(direct, tries.Select(t => new Varied(t.Element, Parameter.Ohms)));
            if (table.IsEmpty) return stakes;
            foreach (var t in tries) table.Add([(t.Element, Parameter.Ohms, t.Ohms)]);
            result = table.Solve();
        }
        catch (UnsolvableException)
        {
            return stakes;
        }
        var harm = new Harm(solved, direct);
        for (var k = 0; k < tries.Length; k++)
        {
            var t = tries[k];
            var stake = result.ReasonOf(k) is null ? harm.Of(result.VoltsOf(k), t.Part.Name, t.What) : double.IsInfinity(t.Ohms)
                ? new(1, $"{t.What}, what it leads to floats: nothing can be told of the valve there.") : new(2, $"{t.What}: the circuit no longer settles, as with a dead short of its supply.");
            if (!stakes.TryGetValue(t.Part.Name, out var known) || stake.Score > known.Score) stakes[t.Part.Name] = stake;
        }
        return stakes;
    }

    private static IEnumerable<(Part Part, string Element, string What, double Ohms)> Tries(SolveResult solved, Network direct)
    {
        var elements = direct.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var part in solved.Netlist.Map.Book.Parts)
            foreach (var name in solved.Netlist.ElementsOf(part.Name))
            {
                if (!elements.TryGetValue(name, out var element)) continue;
                if (element is Capacitor && part.Kind.IsCapacitor())
                {
                    yield return (part, name, "Shorted", ShortOhms);
                    yield return (part, name, $"Leaking {Say.Ohms(SmallLeakOhms)}", SmallLeakOhms);
                }
                else if (element is Resistor && part.Kind == PartKind.Resistor) yield return (part, name, "Open", double.PositiveInfinity);
            }
    }

    /// <summary>Weighs what a variant does to what cannot be bought again.</summary>
    private sealed class Harm
    {
        private readonly (string Valve, Element Law, double Watts, double Amperes)[] _valves;
        private readonly (string Part, Element[] Elements, double Watts, double Rated)[] _resistors;
        private readonly (string Name, Element Law, double Amperes)[] _rectifiers;
        private readonly (string Part, int A, int B, double Amperes, double Ohms)[] _windings;

        public Harm(SolveResult solved, Network direct)
        {
            var volts = solved.Point!.Volts.ToArray();
            var elements = direct.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
            _valves = [.. solved.Netlist.Valves.Where(v => elements[v.Element] is Triode or Pentode or Converter).Select(v => (v.Valve, elements[v.Element], Plate(elements[v.Element], volts), Cathode(elements[v.Element], volts)))];
            _resistors = [.. solved.Netlist.Map.Book.Parts.Where(p => p.Kind == PartKind.Resistor && p.RatedWatts is > 0)
                .Select(p => (p.Name, Elements: solved.Netlist.ElementsOf(p.Name).Where(elements.ContainsKey).Select(e => elements[e]).ToArray(), p.RatedWatts!.Value)).Select(r => (r.Name, r.Elements, Watts(r.Elements, volts), r.Value))];
            _rectifiers = [.. solved.Rectifiers.Select(r => (Position(solved, r.Element), elements[r.Element], Math.Max(r.Amperes, 1e-3)))];
            _windings = [.. solved.Netlist.Map.Book.Parts.Where(p => p.Kind == PartKind.Winding).SelectMany(p => solved.Netlist.ElementsOf(p.Name).Where(elements.ContainsKey).Select(e => elements[e]).OfType<Inductor>().Where(l => l.Ohms > 20)
                .Select(l => (p.Name, l.A, l.B, Math.Abs(volts[l.A] - volts[l.B]) / l.Ohms, l.Ohms)))];
        }

        public Stake Of(ReadOnlySpan<double> volts, string part, string what)
        {
            var found = new List<(double Score, string Words)>();
            foreach (var (name, law, nominal) in _rectifiers)
            {
                var amperes = Math.Abs(Currents.Into(law, volts)[0].Amperes);
                if (amperes > 1.5 * nominal + 5e-3) found.Add((3 + Math.Log(amperes / nominal), Words($"{name} and what feeds it deliver {amperes * 1e3:0} mA in place of {nominal * 1e3:0} mA")));
            }
            foreach (var (winding, a, b, nominal, r) in _windings)
            {
                var amperes = Math.Abs(volts[a] - volts[b]) / r;
                if (amperes > 2 * nominal + 10e-3) found.Add((3 + Math.Log(amperes / (nominal + 1e-3)), Words($"the winding {winding} carries {amperes * 1e3:0} mA")));
            }
            foreach (var (valve, law, watts, amperes) in _valves)
            {
                var (w, i) = (Plate(law, volts), Cathode(law, volts));
                if (w > 1.5 * watts + 0.3) found.Add((2 + Math.Log(w / (watts + 0.1)) / 2 + Math.Min(w, 20) / 20, Words($"{valve}'s plate takes {w:0.#} W in place of {watts:0.#} W")));
                else if (i > 1.3 * amperes + 0.5e-3) found.Add((1 + Math.Min(i / (amperes + 1e-4), 5) / 5, Words($"{valve} draws {i * 1e3:0.#} mA in place of {amperes * 1e3:0.#} mA")));
            }
            foreach (var (resistor, elements, nominal, rated) in _resistors)
            {
                if (resistor == part) continue;
                var watts = Watts(elements, volts);
                if (watts > rated && watts > 1.5 * nominal) found.Add((1.5 + Math.Log(watts / rated) / 3, Words($"{resistor} burns at {watts:0.#} W ({rated:0.##} W)")));
            }
            if (found.Count == 0) return new(0, null);
            var worst = found.OrderByDescending(f => f.Score).Take(2).ToArray();
            return new(worst[0].Score, $"{what}, {string.Join("; ", worst.Select(f => f.Words))}.");
        }

        private static double Plate(Element law, ReadOnlySpan<double> volts)
        {
            var currents = Currents.Into(law, volts);
            return (volts[currents[0].Node] - volts[currents[^1].Node]) * currents[0].Amperes;
        }

        private static double Cathode(Element law, ReadOnlySpan<double> volts) => -Currents.Into(law, volts)[^1].Amperes;

        private static double Watts(Element[] elements, ReadOnlySpan<double> volts)
        {
            double watts = 0;
            foreach (var e in elements)
                foreach (var (node, amperes) in Currents.Into(e, volts)) watts += volts[node] * amperes;
            return watts;
        }

        private static string Position(SolveResult solved, string element) => solved.Netlist.Origins.FirstOrDefault(o => o.Element == element)?.Position ?? element;
        private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
    }
}
