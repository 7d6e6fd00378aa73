using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Trace;

/// <summary>All that differs from one healthy set to the next, as independent standard deviations: a part's tolerance is one and the same whether volts or ohms are read, and so is the line.</summary>
/// <remarks>A range counts as even between its ends: its standard deviation is its width over √12. Tolerances, the valves' spread and the line come from the netlist; the rest is listed here (common practice, no source).</remarks>
internal sealed class Spreads
{
    // A valve's amplification factor differs less than its emission; a type's law may itself be off (common practice, no source).
    private const double MuShare = 0.06;
    private readonly Dictionary<string, int> _index = new(StringComparer.Ordinal);
    private readonly Dictionary<(string, Parameter), (int Index, double Sigma)> _hot = [];
    private readonly List<ColdSpread> _cold = [];

    public Spreads(SolveResult solved)
    {
        var elements = solved.Direct!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var s in solved.Spreads)
        {
            if (!(Sigma(s) is > 0 and var sigma) || !elements.ContainsKey(s.Element)) continue;
            _hot.TryAdd((s.Element, s.Parameter), (Index(s.Cause == SpreadCause.Line ? "line" : $"{s.Element}\0{s.Parameter}"), sigma));
        }
        foreach (var e in elements.Values.Where(e => e is Triode or Pentode)) _hot.TryAdd((e.Name, Parameter.Mu), (Index($"{e.Name}\0{Parameter.Mu}"), MuShare));
        var board = Board.Found(solved.Netlist);
        foreach (var e in solved.Netlist.Network!.Elements) AddCold(e, board.Of(e.Name));
    }

    /// <summary>How many there are.</summary>
    public int Count => _index.Count;

    /// <summary>What a cold reading depends on.</summary>
    public IReadOnlyList<ColdSpread> Cold => _cold;

    /// <summary>Where a parameter of an element stands, and its standard deviation as a logarithm; null where it does not vary.</summary>
    public (int Index, double Sigma)? Hot(string element, Parameter parameter) => _hot.TryGetValue((element, parameter), out var at) ? at : null;

    private int Index(string key) => _index.TryGetValue(key, out var at) ? at : _index[key] = _index.Count;

    private static double Sigma(Spread s) => s.Geometric && s.Low > 0 ? Math.Log(s.High / s.Low) / Math.Sqrt(12) : s.Nominal != 0 ? Math.Abs((s.High - s.Low) / s.Nominal) / Math.Sqrt(12) : 0;

    private void AddCold(Element element, Slips.Range range)
    {
        var ohms = Ratio(range.OhmsLow, range.OhmsHigh);
        var ohmsIndex = Index($"{element.Name}\0{Parameter.Ohms}");
        void Add(int index, Func<Element, Element> moved) => _cold.Add(new(element.Name, index, moved));
        switch (element)
        {
            // A resistor's tolerance is the same one hot and cold; what old ones drifted beyond it is a fault with a prior of its own.
            case Resistor: var own = Hot(element.Name, Parameter.Ohms)?.Sigma ?? ohms; Add(ohmsIndex, e => ((Resistor)e) with { Ohms = ((Resistor)e).Ohms * (1 + own) }); break;
            case Control:
                Add(Index($"{element.Name}\0track"), e => ((Control)e) with { Ohms = ((Control)e).Ohms * 1.12 });
                Add(Index($"{element.Name}\0{Parameter.Position}"), e => ((Control)e) with { Position = Math.Min(0.98, ((Control)e).Position + 0.27) });
                break;
            case Capacitor:
                var farads = Ratio(range.FaradsLow, range.FaradsHigh);
                Add(Index($"{element.Name}\0farads"), e => ((Capacitor)e) with { Farads = ((Capacitor)e).Farads * (1 + farads) });
                if (double.IsFinite(range.LeakLow)) Add(Index($"{element.Name}\0leak"), e => ((Capacitor)e) with { LeakOhms = 1 / (1 / ((Capacitor)e).LeakOhms + 0.1 / range.LeakLow) });
                break;
            case Inductor:
                Add(ohmsIndex, e => ((Inductor)e) with { Ohms = ((Inductor)e).Ohms * (1 + ohms) });
                Add(Index($"{element.Name}\0henries"), e => ((Inductor)e) with { Henries = ((Inductor)e).Henries * 1.7 });
                break;
            case Transformer: Add(ohmsIndex, e => ((Transformer)e) with { Windings = [.. ((Transformer)e).Windings.Select(w => w with { Ohms = w.Ohms * 1.12 })] }); break;
            case Filament: Add(Index($"{element.Name}\0cold"), e => ((Filament)e) with { ColdShare = ((Filament)e).ColdShare * 1.3 }); break;
            case Thermistor: Add(Index($"{element.Name}\0cold"), e => ((Thermistor)e) with { ColdOhms = ((Thermistor)e).ColdOhms * 1.3 }); break;
            case Fuse: Add(ohmsIndex, e => ((Fuse)e) with { Ohms = ((Fuse)e).Ohms * 1.3 }); break;
            case Diode { Law.NeedsHeat: false }: Add(Index($"{element.Name}\0at rest"), e => ((Diode)e) with { Law = ((Diode)e).Law with { Perveance = ((Diode)e).Law.Perveance * 3 } }); break;
        }
    }

    private static double Ratio(double low, double high) => low > 0 && high > low ? Math.Exp(Math.Log(high / low) / Math.Sqrt(12)) - 1 : 0.05;
}

/// <summary>One thing that a cold reading depends on.</summary>
/// <param name="Element">The element.</param>
/// <param name="Index">Its place among the deviations.</param>
/// <param name="Moved">The element one standard deviation further.</param>
internal sealed record ColdSpread(string Element, int Index, Func<Element, Element> Moved);
