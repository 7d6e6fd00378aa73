using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Trace;

/// <summary>All single faults of a set: of its parts, its valves, its sources, and every slip that the geometry makes possible.</summary>
/// <param name="netlist">The set, with the network that the changes are for.</param>
/// <param name="touched">Parts that the work touched.</param>
/// <param name="priors">How often each is met.</param>
internal sealed class FaultFinder(NetlistResult netlist, IReadOnlySet<string> touched, PriorTable priors)
{
    private readonly Dictionary<string, Element> _elements = netlist.Network!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
    private const string Added = "fault";

    /// <summary>The faults, parts in book order, then valves, then slips.</summary>
    public IEnumerable<Fault> All()
    {
        var parts = netlist.Map.Book.Parts;
        var own = netlist.Origins.ToLookup(o => o.Position, StringComparer.OrdinalIgnoreCase);
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var part in parts.Where(p => p.Kind != PartKind.Valve && seen.Add(p.Name)))
            foreach (var origin in own[part.Name].DistinctBy(o => o.Element))
                if (_elements.TryGetValue(origin.Element, out var element))
                    foreach (var fault in OfPart(part, element, origin.What)) yield return fault;
        foreach (var valve in netlist.Valves.GroupBy(v => v.Valve, StringComparer.OrdinalIgnoreCase))
            foreach (var fault in new ValveFaults(netlist, _elements, priors).Of(valve.Key, [.. valve])) yield return fault;
        foreach (var slip in SlipsStage.Of(netlist)) if (OfSlip(slip) is { } fault) yield return fault;
    }

    private IEnumerable<Fault> OfPart(Part part, Element element, string what)
    {
        var family = PriorTable.FamilyOf(part.Kind);
        var where = what.Length > 0 ? $" ({what})" : "";
        var lift = $"Lift one lead of {part.Name} and measure it.";
        switch (element)
        {
            case Resistor e:
                yield return Make(FaultKind.High, "high", lift, [.. Times(e, 1.5, 2, 3, 5, 10)]);
                yield return Make(FaultKind.Low, "low", lift, [.. Times(e, 0.6, 0.35, 0.15)]);
                yield return Make(FaultKind.Open, "open", lift, One(e with { Ohms = double.PositiveInfinity }));
                yield return Make(FaultKind.Shorted, "shorted", lift, One(e with { Ohms = 0.1 }));
                break;
            case Control e:
                yield return Make(FaultKind.High, "high", lift, [.. new[] { 1.5, 2.5, 5 }.Select(t => Size($"{t:0.#} times its mark", 1 / 3.0, t, e with { Ohms = e.Ohms * t }))]);
                yield return Make(FaultKind.Open, "open", lift, One(e with { Ohms = 1e9 }));
                break;
            case Capacitor e:
                var leaks = part.Kind == PartKind.Electrolytic ? new[] { 1e3, 5e3, 20e3, 100e3 } : [10e3, 50e3, 200e3, 1e6, 5e6, 20e6];
                yield return Make(FaultKind.Leaky, "leaky", lift, [.. leaks.Select(r => Further(Judge.Say.Ohms(r), 1.0 / leaks.Length, r, e.A, e.B, r))]);
                yield return Make(FaultKind.Shorted, "shorted", lift, Further("", 1, 1, e.A, e.B, 1));
                yield return Make(FaultKind.Open, "open", $"Lay a good capacitor across {part.Name}, plug out, and see whether the fault goes.", One(e with { Farads = 1e-13 }));
                break;
            case Inductor e:
                yield return Make(FaultKind.Open, "open", $"Read the ohms of {part.Name}, plug out.", One(e with { Ohms = 1e12 }));
                yield return Make(FaultKind.Shorted, "shorted", $"Read the ohms of {part.Name}, plug out.", Size("", 1, 1, e with { Ohms = e.Ohms * 0.1, Henries = e.Henries * 0.01 }));
                break;
            case Transformer e when Winding(e, part) is >= 0 and var i:
                yield return Make(FaultKind.Open, "open", $"Read the ohms of {part.Name}, plug out.", One(e with { Windings = e.Windings.SetItem(i, e.Windings[i] with { Ohms = 1e12 }) }));
                break;
            case Switch e: yield return Make(FaultKind.Open, "open", $"Read the ohms across {part.Name}, plug out.", One(e with { Closed = false })); break;
            case Fuse e: yield return Make(FaultKind.Open, "open", $"Read {part.Name}; find out why it blew.", One(e with { Ohms = 1e12 })); break;
            case Filament e: yield return Make(FaultKind.Open, "open", $"Read {part.Name}, plug out.", One(e with { RatedAmperes = e.RatedAmperes * 1e-9 })); break;
            case Thermistor e: yield return Make(FaultKind.Open, "open", $"Read {part.Name}, plug out.", One(e with { ColdOhms = 1e12 })); break;
            case Diode e:
                yield return Make(FaultKind.Weak, "weak", $"Measure the drop across {part.Name}, or exchange it.", [.. new[] { 0.5, 0.2, 0.05 }.Select(k => Size($"{k * 100:0} % of its current", 1 / 3.0, k, e with { Law = e.Law with { Perveance = e.Law.Perveance * k } }))]);
                yield return Make(FaultKind.Dead, "dead", $"Exchange {part.Name}.", One(e with { Law = e.Law with { Perveance = e.Law.Perveance * 1e-9 } }));
                break;
        }

        Fault Make(FaultKind kind, string word, string act, params ImmutableArray<FaultSize> sizes)
        {
            var prior = priors.Of(family, word);
            var isNew = touched.Contains(part.Name);
            return new()
            {
                Id = $"{part.Name}{(what.Length > 0 ? $" {what}" : "")} {word}", Kind = kind, Position = part.Name, Words = $"{part.Name}{where} {word switch { "high" => "drifted high", "low" => "drifted low", _ => word }}", Act = act,
                Weight = prior.Weight * (isNew ? PriorTable.NewPartShare : 1), Why = isNew ? $"It was replaced: new parts fail rarely. ({prior.Why})" : prior.Why, Sizes = sizes,
            };
        }

        static FaultSize One(Element instead) => Size("", 1, 1, instead);
        static FaultSize Size(string words, double share, double size, Element instead) => new(words, share, Math.Log(size), new() { Instead = [instead] });
        static FaultSize Further(string words, double share, double size, int a, int b, double ohms) => new(words, share, Math.Log(size), new() { Further = [new Resistor(Added, a, b, ohms)] });
        static IEnumerable<FaultSize> Times(Resistor e, params double[] times) => times.Select(t => Size($"{t:0.##} times its mark", 1.0 / times.Length, t, e with { Ohms = e.Ohms * t }));
    }

    /// <summary>Which winding of its body a part is.</summary>
    private int Winding(Transformer e, Part part)
    {
        var (a, b) = (netlist.Map.NodeOf(part.LeadA)?.Index, netlist.Map.NodeOf(part.LeadB)?.Index);
        for (var i = 0; i < e.Windings.Length; i++)
            if ((e.Windings[i].A == a && e.Windings[i].B == b) || (e.Windings[i].A == b && e.Windings[i].B == a)) return i;
        return -1;
    }

    private Fault? OfSlip(Slip slip)
    {
        if (slip.Change is not { } change) return null;
        var word = slip.Kind switch
        {
            SlipKind.Missed => "missed",
            SlipKind.NeighbouringLug => "neighbour",
            SlipKind.Bridge => "bridge",
            SlipKind.Reversed => "reversed",
            SlipKind.WrongValue => "wrong value",
            SlipKind.Empty => "empty",
            SlipKind.WireOff => "wire off",
            SlipKind.WireDisplaced => "wire displaced",
            _ => null,
        };
        if (word is null) return null;
        var prior = priors.Of("slip", word);
        var worked = touched.Contains(slip.Position) || slip.Kind == SlipKind.Bridge && netlist.Map.Book.Parts.Any(p => touched.Contains(p.Name) && p.Leads.Any(l => slip.Lugs.Contains(l.Lug, StringComparer.OrdinalIgnoreCase)));
        // Where parts come from the works nobody took one for another.
        if (!worked && slip.Kind is SlipKind.WrongValue or SlipKind.Empty) return null;
        return new()
        {
            Id = slip.Id, Kind = FaultKind.Slip, Position = slip.Position, Words = slip.Sentence, Act = $"Look: {slip.LookAt}.",
            Weight = prior.Weight * (worked ? 1 : PriorTable.UntouchedShare), Why = worked ? prior.Why : $"Nobody worked there: rare. ({prior.Why})",
            Sizes = [new("", 1, 0, change)],
        };
    }
}
