using System.Collections.Concurrent;
using System.Numerics;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>The set unplugged and cold, at the frequencies of the bench's meters: what each fault makes of a reading, and how far healthy spread moves it.</summary>
/// <remarks>
/// One reading under all faults: the network is reduced once a position to the lugs concerned (<see cref="Ports"/>), and each of its faults is tried on what is left. All readings under one fault: the impedances between all nodes.
/// Sensitivity: dZ_ab = −Σ δy·T², T = (Z_ad + Z_bc − Z_ac − Z_bd)/2 the volts between c and d for an ampere through a and b (Tellegen's theorem; Director and Rohrer 1969).
/// </remarks>
internal sealed class ColdSide
{
    // Some 200 MB of impedances at most.
    private const int MostNumbers = 12_500_000;
    private readonly TraceModel _model;
    private readonly Spreads _spreads;
    private readonly Func<Element, Element> _insulated;
    private readonly Network _network;
    private readonly Dictionary<string, Element> _elements;
    private readonly ConcurrentDictionary<(ReadingKind, int, int, double, string, string), double[]> _everywhere = new();
    private readonly ConcurrentDictionary<(int Variant, double Hertz), Complex[,]> _matrices = new();
    private readonly ConcurrentDictionary<double, (ColdSpread Spread, (int A, int B, Complex Siemens)[] Change)[]> _slopes = new();

    /// <param name="model">The faults.</param>
    /// <param name="spreads">What differs between healthy sets.</param>
    /// <param name="insulated">Gives a capacitor its insulation.</param>
    public ColdSide(TraceModel model, Spreads spreads, Func<Element, Element> insulated)
    {
        (_model, _spreads, _insulated) = (model, spreads, insulated);
        var cold = ColdSet.Of(model.Solved.Netlist);
        _network = new(cold.NodeNames, cold.Reference, cold.Elements.Select(insulated));
        _elements = _network.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
    }

    private static double HertzOf(ReadingKind kind, Meter meter) => kind == ReadingKind.Farads ? meter.FaradsHertz : 0;

    /// <summary>What the meter would show under a variant, healthy parts at their mark: Ω or F.</summary>
    public double Value(Variant variant, ProbePlace place, Meter meter)
    {
        var (a, b) = (_model.ColdNode(variant, place.From), _model.ColdNode(variant, place.To));
        var hertz = HertzOf(place.Kind, meter);
        return Shown(place.Kind, Matrix(variant, hertz)[a, b], hertz);
    }

    /// <summary>The same for every variant, in their order.</summary>
    public double[] Values(ProbePlace place, Meter meter)
    {
        var hertz = HertzOf(place.Kind, meter);
        var (home, far) = (_model.ColdNode(_model.Variants[0], place.From), _model.ColdNode(_model.Variants[0], place.To));
        return _everywhere.GetOrAdd((place.Kind, home, far, hertz, place.From.ToUpperInvariant(), place.To.ToUpperInvariant()), _ =>
        {
            var values = new double[_model.Variants.Length];
            Parallel.ForEach(_model.Variants.GroupBy(v => _model.Faults[v.Fault].Position, StringComparer.OrdinalIgnoreCase), group => OfPosition([.. group], place, hertz, values));
            return values;
        });
    }

    private void OfPosition(Variant[] group, ProbePlace place, double hertz, double[] values)
    {
        var touched = group.SelectMany(v => v.Cold.Instead).Select(e => e.Name).ToHashSet(StringComparer.Ordinal);
        Element[] mine = [.. touched.Order(StringComparer.Ordinal).Select(n => _elements.GetValueOrDefault(n)).OfType<Element>()];
        var nodes = _network.NodeCount;
        var ports = mine.Concat(group.SelectMany(v => v.Cold.Instead.Concat(v.Cold.Further))).SelectMany(e => Terminals.Of(e))
            .Concat(group.SelectMany(v => new[] { _model.ColdNode(v, place.From), _model.ColdNode(v, place.To) })).Where(n => n < nodes).Distinct();
        var seen = Ports.Of(nodes, _network.Elements.Where(e => !touched.Contains(e.Name)), ports, hertz);
        foreach (var v in group)
        {
            var z = seen.Between([.. Local(mine, v)], [_model.ColdNode(v, place.From), _model.ColdNode(v, place.To)]);
            values[v.Number] = Shown(place.Kind, z[0, 1], hertz);
        }
    }

    /// <summary>Elements with a variant's in place of theirs; a line switch stays off wherever it is soldered.</summary>
    private IEnumerable<Element> Local(IEnumerable<Element> elements, Variant v)
    {
        var instead = v.Cold.Instead.ToDictionary(e => e.Name, StringComparer.Ordinal);
        return elements.Select(e => instead.GetValueOrDefault(e.Name) is { } other ? other is Switch w && e is Switch { Closed: false } ? w with { Closed = false } : _insulated(other) : e).Concat(v.Cold.Further);
    }

    /// <summary>How a standard deviation of each spread moves a reading on its even scale: added to a row.</summary>
    /// <returns>Standard deviation of what wide spreads do beyond their slope.</returns>
    public double Row(Variant variant, ProbePlace place, Meter meter, double[] row)
    {
        var hertz = HertzOf(place.Kind, meter);
        var z = Matrix(variant, hertz);
        var (a, b) = (_model.ColdNode(variant, place.From), _model.ColdNode(variant, place.To));
        var shown = z[a, b];
        if (!Complex.IsFinite(shown) || shown == Complex.Zero) return 0;
        double bent = 0;
        var slope = Observation.SlopeOf(place.Kind, Shown(place.Kind, shown, hertz));
        void Put(ColdSpread spread, (int A, int B, Complex Siemens)[] change)
        {
            var dz = Complex.Zero;
            foreach (var (c, d, siemens) in change)
            {
                var t = (z[a, d] + z[b, c] - z[a, c] - z[b, d]) / 2;
                if (Complex.IsFinite(t)) dz -= t * t * siemens;
            }
            if (dz == Complex.Zero) return;
            // Of a capacitance C = Im(1/Z)/ω.
            var moved = spread.Steps * slope * (place.Kind == ReadingKind.Ohms ? dz.Real : (-dz / (shown * shown)).Imaginary / (2 * Math.PI * hertz));
            row[spread.Index] += moved;
            if (spread.IsWide) bent += moved * moved;
        }
        var changed = variant.Cold.Instead.ToDictionary(e => e.Name, StringComparer.Ordinal);
        foreach (var (spread, change) in _slopes.GetOrAdd(hertz, SlopesAt))
            if (!changed.TryGetValue(spread.Element, out var other)) Put(spread, change);
            else if (_elements.ContainsKey(spread.Element)) Put(spread, Difference(_insulated(other), spread.Moved(_insulated(other)), hertz));
        return 0.5 * Math.Sqrt(bent);
    }

    private (ColdSpread, (int, int, Complex)[])[] SlopesAt(double hertz) =>
        [.. _spreads.Cold.Where(s => _elements.ContainsKey(s.Element)).Select(s => (s, Difference(_elements[s.Element], s.Moved(_elements[s.Element]), hertz))).Where(s => s.Item2.Length > 0)];

    private static (int, int, Complex)[] Difference(Element from, Element to, double hertz) =>
        [.. Ports.AdmittancesOf([to], hertz), .. Ports.AdmittancesOf([from], hertz).Select(y => (y.A, y.B, -y.Siemens))];

    private Complex[,] Matrix(Variant variant, double hertz)
    {
        // Half a megabyte each for a television: a long search begins anew rather than fill the memory.
        if (_matrices.Count > MostNumbers / (_network.NodeCount * _network.NodeCount)) _matrices.Clear();
        return _matrices.GetOrAdd((variant.Number, hertz), _ => Reduced(variant, hertz));
    }

    private Complex[,] Reduced(Variant variant, double hertz)
    {
        var nodes = _network.NodeCount + variant.Cold.NewNodes.Length;
        int[] all = [.. Enumerable.Range(0, nodes)];
        return Ports.Of(nodes, Local(_network.Elements, variant), all, hertz).Between([], all);
    }

    private static double Shown(ReadingKind kind, Complex z, double hertz)
    {
        if (kind == ReadingKind.Ohms) return Complex.IsFinite(z) ? Math.Clamp(z.Real, 0, 1e12) : 1e12;
        if (!Complex.IsFinite(z)) return 0;
        var y = 1 / z;
        return Complex.IsFinite(y) ? Math.Max(y.Imaginary / (2 * Math.PI * hertz), 0) : 1;
    }
}
