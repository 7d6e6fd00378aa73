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
    private const double MuShare = 0.06, ContactVolts = 0.12;
    // A control's track and a winding, ±20 %; a slider anywhere (wide, because ohms go with its logarithm); a new capacitor, ±20 %.
    private const double TrackSigma = 0.12, SettingSigma = 0.6, NewFaradsSigma = 0.12;
    private const double Step = 0.01, WideSigma = 0.45;
    private readonly Dictionary<string, int> _index = new(StringComparer.Ordinal);
    private readonly Dictionary<(string, Parameter), (int Index, double Sigma)> _hot = [];
    private readonly List<ColdSpread> _cold = [];

    public Spreads(SolveResult solved, IReadOnlySet<string> touched)
    {
        var elements = solved.Direct!.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var s in solved.Spreads)
        {
            if (!(Sigma(s) is > 0 and var sigma) || !elements.ContainsKey(s.Element)) continue;
            _hot.TryAdd((s.Element, s.Parameter), (Index(s.Cause == SpreadCause.Line ? "line" : $"{s.Element}\0{s.Parameter}"), sigma));
        }
        // A contact potential that differs by so much shifts the drive as another amplification factor would.
        double Drive(Element e) => e switch { Triode t => Math.Abs(At(t.Plate) - At(t.Cathode)) / t.Law.Mu, Pentode p => Math.Abs(At(p.Screen) - At(p.Cathode)) / p.Law.ScreenMu, _ => 0 };
        double At(int node) => solved.Point!.Volts[node];
        foreach (var e in elements.Values.Where(e => e is Triode or Pentode))
            _hot.TryAdd((e.Name, Parameter.Mu), (Index($"{e.Name}\0{Parameter.Mu}"), Math.Min(0.6, Math.Sqrt(MuShare * MuShare + Math.Pow(ContactVolts / Math.Max(Drive(e), 0.1), 2)))));
        var board = Board.Found(solved.Netlist);
        var owner = solved.Netlist.Origins.GroupBy(o => o.Element, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Position, StringComparer.Ordinal);
        foreach (var e in solved.Netlist.Network!.Elements) AddCold(e, board.Of(e.Name), owner.TryGetValue(e.Name, out var position) && touched.Contains(position));
    }

    /// <summary>Place and standard deviation of the line; null where the set has none.</summary>
    public (int Index, double Sigma)? Line => _index.TryGetValue("line", out var at) && _hot.Values.FirstOrDefault(h => h.Index == at) is { Sigma: > 0 } hot ? hot : null;

    /// <summary>How many there are.</summary>
    public int Count => _index.Count;

    /// <summary>What a cold reading depends on.</summary>
    public IReadOnlyList<ColdSpread> Cold => _cold;

    /// <summary>Where a parameter of an element stands, and its standard deviation as a logarithm; null where it does not vary.</summary>
    public (int Index, double Sigma)? Hot(string element, Parameter parameter) => _hot.TryGetValue((element, parameter), out var at) ? at : null;

    private int Index(string key) => _index.TryGetValue(key, out var at) ? at : _index[key] = _index.Count;

    private static double Sigma(Spread s) => s.Geometric && s.Low > 0 ? Math.Log(s.High / s.Low) / Math.Sqrt(12) : s.Nominal != 0 ? Math.Abs((s.High - s.Low) / s.Nominal) / Math.Sqrt(12) : 0;

    // Each is moved by a small step, so that what the step does is a slope; the deviation then counts as so many steps.
    private void AddCold(Element element, Slips.Range range, bool isNew)
    {
        var ohms = Log(range.OhmsLow, range.OhmsHigh);
        var ohmsIndex = Index($"{element.Name}\0{Parameter.Ohms}");
        void Add(int index, double sigma, Func<Element, double, Element> moved) => _cold.Add(new(element.Name, index, sigma / Step, sigma > WideSigma, e => moved(e, 1 + Step)));
        switch (element)
        {
            // A resistor's tolerance is the same one hot and cold; what old ones drifted beyond it is a fault with a prior of its own.
            case Resistor: Add(ohmsIndex, Hot(element.Name, Parameter.Ohms)?.Sigma ?? ohms, (e, f) => ((Resistor)e) with { Ohms = ((Resistor)e).Ohms * f }); break;
            case Control c:
                Add(Index($"{element.Name}\0track"), TrackSigma, (e, f) => ((Control)e) with { Ohms = ((Control)e).Ohms * f });
                Add(Index($"{element.Name}\0{Parameter.Position}"), SettingSigma / c.Position, (e, f) => ((Control)e) with { Position = ((Control)e).Position * f });
                break;
            case Capacitor:
                Add(Index($"{element.Name}\0farads"), isNew ? NewFaradsSigma : Log(range.FaradsLow, range.FaradsHigh), (e, f) => ((Capacitor)e) with { Farads = ((Capacitor)e).Farads * f });
                var leak = Index($"{element.Name}\0leak");
                _hot.TryAdd((element.Name, Parameter.Ohms), (leak, Insulation.Sigma));
                Add(leak, Insulation.Sigma, (e, f) => ((Capacitor)e) with { LeakOhms = ((Capacitor)e).LeakOhms * f });
                break;
            case Inductor:
                Add(ohmsIndex, ohms, (e, f) => ((Inductor)e) with { Ohms = ((Inductor)e).Ohms * f });
                Add(Index($"{element.Name}\0henries"), Math.Log(Slips.Range.Henries) / Math.Sqrt(3), (e, f) => ((Inductor)e) with { Henries = ((Inductor)e).Henries * f });
                break;
            case Transformer: Add(ohmsIndex, TrackSigma, (e, f) => ((Transformer)e) with { Windings = [.. ((Transformer)e).Windings.Select(w => w with { Ohms = w.Ohms * f })] }); break;
            case Filament: Add(Index($"{element.Name}\0cold"), Math.Log(Slips.Range.Hot) / Math.Sqrt(3), (e, f) => ((Filament)e) with { ColdShare = ((Filament)e).ColdShare * f }); break;
            case Thermistor: Add(Index($"{element.Name}\0cold"), Math.Log(Slips.Range.Hot) / Math.Sqrt(3), (e, f) => ((Thermistor)e) with { ColdOhms = ((Thermistor)e).ColdOhms * f }); break;
            case Fuse: Add(ohmsIndex, Math.Log(Slips.Range.Hot) / Math.Sqrt(3), (e, f) => ((Fuse)e) with { Ohms = ((Fuse)e).Ohms * f }); break;
            case Diode { Law.NeedsHeat: false }: Add(Index($"{element.Name}\0at rest"), Math.Log(Slips.Range.Rectifier) / Math.Sqrt(3), (e, f) => ((Diode)e) with { Law = ((Diode)e).Law with { Perveance = ((Diode)e).Law.Perveance * f } }); break;
        }
    }

    private static double Log(double low, double high) => low > 0 && high > low ? Math.Log(high / low) / Math.Sqrt(12) : 0.05;
}

/// <summary>One thing that a cold reading depends on.</summary>
/// <param name="Element">The element.</param>
/// <param name="Index">Its place among the deviations.</param>
/// <param name="Steps">How many steps one standard deviation is.</param>
/// <param name="IsWide">So wide that a slope tells no more than half of what it does.</param>
/// <param name="Moved">The element one small step further.</param>
internal sealed record ColdSpread(string Element, int Index, double Steps, bool IsWide, Func<Element, Element> Moved);
