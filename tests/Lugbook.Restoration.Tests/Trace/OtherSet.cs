using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Trace;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>What is really wrong with a drawn set.</summary>
/// <param name="Words">In words.</param>
/// <param name="Position">The part; empty where nothing is wrong.</param>
/// <param name="IsIt">Is a suspect it?</param>
internal sealed record Truth(string Words, string Position, Func<Suspect, bool> IsIt);

/// <summary>One set off the line, with one fault, one slip or none: parts and valves of its own, other valve laws, its own line voltage; and what meters show on it.</summary>
internal sealed class OtherSet
{
    private readonly SolveResult _solved;
    private readonly Random _random;
    private readonly Network _hot, _cold;
    private readonly double[]? _volts;
    private readonly SlipChange _hotChange, _coldChange;

    private readonly IReadOnlyList<OtherLaw> _laws;

    public OtherSet(SolveResult solved, ImmutableHashSet<string> touched, Random random, bool healthy = false)
    {
        (_solved, _random) = (solved, random);
        var (hot, cold) = Healthy();
        (Truth, _hotChange, _coldChange) = healthy ? (Well, SlipChange.None, SlipChange.None) : Fault(touched, hot, cold);
        (_hot, _cold) = (_hotChange.Of(hot), _coldChange.Of(cold));
        double[] at = [.. solved.Point!.Volts];
        var nominal = solved.Direct!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        // One valve's systems were made together.
        var pieces = solved.Netlist.Valves.Select(v => v.Valve).Distinct().ToDictionary(v => v, _ => (Emission: Math.Exp(Clipped(0.12, 0.26)), Gain: 1 + Clipped(0.04, 0.1)));
        var owner = solved.Netlist.Valves.ToDictionary(v => v.Element, v => v.Valve, StringComparer.Ordinal);
        _laws = [.. _hot.Elements.Where(e => nominal.ContainsKey(e.Name)).Select(e => OtherLaw.Of(nominal[e.Name], at, e, owner.TryGetValue(e.Name, out var valve) ? pieces[valve].Emission : 1, owner.TryGetValue(e.Name, out valve) ? pieces[valve].Gain : 1)).OfType<OtherLaw>()];
        _volts = OtherSolver.Volts(_hot, _laws, at);
        LineAsRead = LineShare * (1 + 0.012 * (2 * random.NextDouble() - 1));
    }

    private static readonly Truth Well = new("nothing", "", _ => false);

    /// <summary>What is wrong.</summary>
    public Truth Truth { get; }
    /// <summary>Its line over the usual one.</summary>
    public double LineShare { get; private set; }

    /// <summary>The line as a hand meter reads it: within 1 % and 4 steps of 2,000.</summary>
    public double LineAsRead { get; }
    /// <summary>Does it settle at all?</summary>
    public bool Runs => _volts is not null;

    /// <summary>What the meter shows at a place, with its own error.</summary>
    public Reading Read(ProbePlace place, Meter meter)
    {
        double Noise(double uncertainty) => (2 * _random.NextDouble() - 1) * (double.IsFinite(uncertainty) ? uncertainty : 0);
        var top = meter.TopOf(place.Kind);
        double value;
        if (place.Kind == ReadingKind.Volts)
        {
            var (node, far) = (Node(place.From, _hotChange), Node(place.To, _hotChange));
            var load = meter.LoadOhms(_volts![node] - _volts[far]);
            var loaded = (double.IsFinite(load) ? OtherSolver.Volts(_hot.Adding(new Resistor("meter", node, far, load)), _laws, _volts) : null) ?? _volts;
            value = loaded[node] - loaded[far];
            value += Noise(meter.Volts.Uncertainty(value));
        }
        else
        {
            var (a, b) = (Node(place.From, _coldChange), Node(place.To, _coldChange));
            value = place.Kind == ReadingKind.Ohms ? Ohms.Between(_cold, a, b, meter.OhmsTestVolts).Ohms + 0.2 * _random.NextDouble() : Impedance.Between(_cold, a, b, meter.FaradsHertz) is { } z && double.IsFinite(z.ParallelFarads) ? Math.Max(0, z.ParallelFarads) : 0;
            if (value <= top) value = Math.Max(0, value + Noise(place.Kind == ReadingKind.Ohms ? meter.OhmsUncertainty(value) : meter.Farads!.Uncertainty(value)));
        }
        var over = place.Kind != ReadingKind.Volts && value > top;
        return new() { Name = TraceStage.Place, Kind = place.Kind, Value = over ? top : value, IsOver = over, FromLug = place.From, ToLug = place.To };
    }

    private int Node(string lug, SlipChange change) => change.Lugs.TryGetValue(lug, out var moved) ? moved : _solved.Netlist.Map.NodeOf(lug)!.Index;

    private double Clipped(double sigma, double most)
    {
        var g = Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
        return Math.Clamp(g * sigma, -most, most);
    }

    private double Between(double low, double high) => low * Math.Pow(high / low, _random.NextDouble());

    private (Network Hot, Network Cold) Healthy()
    {
        var spreads = _solved.Spreads.ToLookup(s => s.Element, StringComparer.Ordinal);
        var line = LineShare = 1 + Clipped(0.04, 0.1);
        var changed = new Dictionary<string, Func<Element, Element>>(StringComparer.Ordinal);
        foreach (var element in _solved.Direct!.Elements.Concat(_solved.Netlist.Network!.Elements).DistinctBy(e => e.Name))
        {
            double Drawn(Parameter parameter)
            {
                var s = spreads[element.Name].FirstOrDefault(x => x.Parameter == parameter);
                if (s is null || s.Nominal == 0) return 1;
                if (s.Cause == SpreadCause.Line) return line;
                var half = (s.High - s.Low) / 2 / Math.Abs(s.Nominal);
                return (s.High + s.Low) / 2 / s.Nominal + Clipped(half / 2, half);
            }
            switch (element)
            {
                case Resistor: var r = Drawn(Parameter.Ohms); changed[element.Name] = e => ((Resistor)e) with { Ohms = ((Resistor)e).Ohms * r }; break;
                case Control: var at = 0.05 + 0.9 * _random.NextDouble(); var track = 1 + Clipped(0.08, 0.2); changed[element.Name] = e => ((Control)e) with { Position = at, Ohms = ((Control)e).Ohms * track }; break;
                case Battery: var b = Drawn(Parameter.Volts); changed[element.Name] = e => ((Battery)e) with { Volts = ((Battery)e).Volts * b }; break;
                case Declared: var d = Drawn(Parameter.Volts); changed[element.Name] = e => ((Declared)e) with { Volts = ((Declared)e).Volts * d }; break;
                case Capacitor cap:
                    // Sound insulation: seconds of an electrolytic, tens to hundreds of megohms of paper, gigaohms of film.
                    var (c, electrolytic) = (1 + Clipped(0.1, 0.2), cap.Farads >= 0.9e-6);
                    var leak = electrolytic ? Between(15, 150) / cap.Farads : Between(60e6, 5e9);
                    changed[element.Name] = e => ((Capacitor)e) with { Farads = ((Capacitor)e).Farads * c, LeakOhms = leak };
                    break;
                case Inductor: var l = 1 + Clipped(0.08, 0.2); changed[element.Name] = e => ((Inductor)e) with { Ohms = ((Inductor)e).Ohms * l }; break;
                case Filament: var f = 1 + Clipped(0.1, 0.2); changed[element.Name] = e => ((Filament)e) with { ColdShare = ((Filament)e).ColdShare * f }; break;
            }
        }
        Network Of(Network n) => new(n.NodeNames, n.Reference, n.Elements.Select(e => changed.TryGetValue(e.Name, out var change) ? change(e) : e));
        return (Of(_solved.Direct!), Of(Lugbook.Restoration.Sheet.ColdSet.Of(_solved.Netlist)));
    }

    private (Truth, SlipChange, SlipChange) Fault(ImmutableHashSet<string> touched, Network hot, Network cold)
    {
        var x = _random.NextDouble();
        if (x < 0.15) return (Well, SlipChange.None, SlipChange.None);
        if (!touched.IsEmpty && x < 0.65)
        {
            var netlist = _solved.Netlist;
            var slips = SlipsStage.Of(netlist with { Network = hot }, touched).Where(s => s is { IsGeometric: true, Change: not null }).ToArray();
            var slip = slips[_random.Next(slips.Length)];
            var same = SlipsStage.Of(netlist with { Network = cold }, touched).First(s => s.Id == slip.Id).Change!;
            return (new(slip.Sentence, slip.Position, s => s.Id == slip.Id), slip.Change!, same);
        }
        return x > 0.85 || !touched.IsEmpty && x > 0.8 ? Valve(hot) : Part(touched, hot, cold);
    }

    private (Truth, SlipChange, SlipChange) Valve(Network hot)
    {
        var systems = _solved.Netlist.Valves.Where(v => !v.Section.StartsWith('d')).ToArray();
        var system = systems[_random.Next(systems.Length)];
        var element = hot.Elements.First(e => e.Name == system.Element);
        var weak = _random.NextDouble() < 0.65;
        var share = weak ? Between(0.1, 0.65) : 1e-9;
        var mine = weak ? [element] : _solved.Netlist.Valves.Where(v => v.Valve == system.Valve).Select(v => hot.Elements.First(e => e.Name == v.Element)).ToArray();
        Element? Weakened(Element e) => e switch
        {
            Triode t => t with { Law = t.Law with { Perveance = t.Law.Perveance * share } },
            Pentode p => p with { Law = p.Law with { Perveance = p.Law.Perveance * share } },
            Converter c => c with { Law = c.Law with { Perveance = c.Law.Perveance * share } },
            Diode d => d with { Law = d.Law with { Perveance = d.Law.Perveance * share } },
            _ => null,
        };
        return (new($"{system.Valve} {(weak ? $"weak, {share * 100:0} %" : "dead")}", system.Valve, s => s.Position == system.Valve && s.Kind is FaultKind.Weak or FaultKind.Dead), new() { Instead = [.. mine.Select(Weakened).OfType<Element>()] }, SlipChange.None);
    }

    private (Truth, SlipChange, SlipChange) Part(ImmutableHashSet<string> touched, Network hot, Network cold)
    {
        var parts = _solved.Netlist.Map.Book.Parts;
        var open = _solved.Netlist.Origins.Where(o => o.What.Length == 0 && !touched.Contains(o.Position) && parts.Named(o.Position) is { } p && (p.Kind == PartKind.Resistor || p.Kind.IsFixedCapacitor()))
            .Select(o => (Part: parts.Named(o.Position)!, Hot: hot.Elements.FirstOrDefault(e => e.Name == o.Element), Cold: cold.Elements.FirstOrDefault(e => e.Name == o.Element))).Where(o => o is { Hot: Resistor or Capacitor, Cold: not null }).ToArray();
        var (part, h, c) = open[_random.Next(open.Length)];
        SlipChange Both(Func<Element, Element> change, Element e) => new() { Instead = [change(e)] };
        (Truth, SlipChange, SlipChange) Made(FaultKind kind, string words, Func<Element, Element> change) => (new($"{part.Name} {words}", part.Name, s => s.Position == part.Name && Same(s.Kind, kind)), Both(change, h!), Both(change, c!));
        // A resistor that has gone far up is lifted and measured like an open one; so is a leak beside a short.
        static bool Same(FaultKind said, FaultKind real) => said == real || Up(said) && Up(real) || Through(said) && Through(real);
        static bool Up(FaultKind k) => k is FaultKind.High or FaultKind.Open;
        static bool Through(FaultKind k) => k is FaultKind.Leaky or FaultKind.Shorted;
        if (h is Resistor)
        {
            if (_random.NextDouble() < 0.2) return Made(FaultKind.Open, "open", e => ((Resistor)e) with { Ohms = 1e12 });
            var times = Between(1.45, 10);
            return Made(FaultKind.High, $"{times:0.0} times its mark", e => ((Resistor)e) with { Ohms = ((Resistor)e).Ohms * times });
        }
        var y = _random.NextDouble();
        if (y < 0.2) return Made(FaultKind.Open, "open", e => ((Capacitor)e) with { Farads = 1e-13 });
        if (y < 0.3) return Made(FaultKind.Shorted, "shorted", e => ((Capacitor)e) with { LeakOhms = 0.5 });
        var leak = part.Kind == PartKind.Electrolytic ? Between(800, 120e3) : Between(8e3, 12e6);
        return Made(FaultKind.Leaky, $"leaky, {leak:0} Ω", e => ((Capacitor)e) with { LeakOhms = leak });
    }
}
