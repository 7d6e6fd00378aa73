using System.Numerics;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Trace;

/// <summary>The set unplugged and cold, at the frequencies of the bench's meters: what each fault makes of a reading, and how far healthy spread moves it.</summary>
internal sealed class ColdSide
{
    private const int MostNewNodes = 12;
    private readonly Network _network;
    private readonly Dictionary<string, Element> _elements;
    private readonly Spreads _spreads;
    private readonly Dictionary<double, Table> _tables = [];

    private sealed class Table(ColdVariants variants, Dictionary<string, (int Index, Func<Element, Element> Moved)[]> spreads)
    {
        public ColdVariants Variants { get; } = variants;
        public Dictionary<string, (int Index, Func<Element, Element> Moved)[]> Spreads { get; } = spreads;
        public List<(int Index, IReadOnlyList<(int A, int B, Complex Siemens)> Change, string Element)> Nominal { get; } = [];
        public Dictionary<int, ColdVariants.Variant> Solved { get; } = [];
    }

    public ColdSide(Network network, Spreads spreads)
    {
        (_network, _spreads) = (network, spreads);
        _elements = network.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
    }

    /// <summary>Frequency at which a kind of reading is taken, Hz.</summary>
    public static double HertzOf(ReadingKind kind, Meter meter) => kind == ReadingKind.Farads ? meter.FaradsHertz : 0;

    /// <summary>What the meter would show, healthy parts at their mark: Ω or F.</summary>
    public double Value(Variant variant, ProbePlace place, int a, int b, Meter meter) => Shown(place.Kind, Solved(variant, HertzOf(place.Kind, meter)).Between(a, b), meter.FaradsHertz);

    /// <summary>How a standard deviation of each spread moves it on its even scale: written into a row.</summary>
    public void Row(Variant variant, ProbePlace place, int a, int b, Meter meter, double[] row)
    {
        var hertz = HertzOf(place.Kind, meter);
        var table = TableAt(hertz);
        var solved = Solved(variant, hertz);
        var z = solved.Between(a, b);
        var slope = Observation.SlopeOf(place.Kind, Shown(place.Kind, z, hertz));
        var changed = variant.Cold.Instead.Select(e => e.Name).ToHashSet(StringComparer.Ordinal);
        void Put(int index, IReadOnlyList<(int A, int B, Complex Siemens)> change)
        {
            var dz = solved.FirstOrder(a, b, change);
            if (dz == Complex.Zero) return;
            // Of a capacitance C = Im(1/Z)/ω.
            row[index] += place.Kind == ReadingKind.Ohms ? dz.Real * slope : (-dz / (z * z)).Imaginary / (2 * Math.PI * hertz) * slope;
        }
        foreach (var (index, change, element) in table.Nominal) if (!changed.Contains(element)) Put(index, change);
        foreach (var e in variant.Cold.Instead)
            if (table.Spreads.TryGetValue(e.Name, out var own)) foreach (var (index, moved) in own) Put(index, table.Variants.Difference(e, moved(e)));
    }

    private static double Shown(ReadingKind kind, Complex z, double hertz)
    {
        if (kind == ReadingKind.Ohms) return Math.Max(z.Real, 0);
        var y = 1 / z;
        return Complex.IsFinite(y) ? Math.Max(y.Imaginary / (2 * Math.PI * hertz), 0) : 1;
    }

    private ColdVariants.Variant Solved(Variant variant, double hertz)
    {
        var table = TableAt(hertz);
        lock (table.Solved)
        {
            if (table.Solved.TryGetValue(variant.Number, out var known)) return known;
        }
        var gone = variant.Cold.Instead.Select(e => _elements.GetValueOrDefault(e.Name)).OfType<Element>();
        var made = table.Variants.With(gone, variant.Cold.Instead.Concat(variant.Cold.Further));
        lock (table.Solved) table.Solved[variant.Number] = made;
        return made;
    }

    private Table TableAt(double hertz)
    {
        lock (_tables)
        {
            if (_tables.TryGetValue(hertz, out var known)) return known;
            var variants = ColdVariants.Of(_network, MostNewNodes, hertz);
            var table = new Table(variants, _spreads.Cold.GroupBy(s => s.Element, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Select(s => (s.Index, s.Moved)).ToArray(), StringComparer.Ordinal));
            foreach (var s in _spreads.Cold)
                if (variants.Difference(_elements[s.Element], s.Moved(_elements[s.Element])) is { Count: > 0 } change) table.Nominal.Add((s.Index, change, s.Element));
            return _tables[hertz] = table;
        }
    }
}
