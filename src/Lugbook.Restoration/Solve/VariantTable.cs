using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Solve;

/// <summary>Variants of one solved set, each a few changes from the nominal, solved together.</summary>
internal sealed class VariantTable
{
    private readonly Batch _batch;
    private readonly double[] _nominal;
    private readonly Dictionary<(string, Parameter), int> _index = [];
    private readonly List<double[]> _rows = [];

    /// <param name="network">The network for direct current.</param>
    /// <param name="varied">What any variant will change; a name that is not in the network is left out.</param>
    /// <exception cref="UnsolvableException">The nominal network does not settle.</exception>
    public VariantTable(Network network, IEnumerable<Varied> varied)
    {
        var elements = network.Elements.ToDictionary(e => e.Name, StringComparer.Ordinal);
        Varied[] all = [.. varied.Where(v => elements.TryGetValue(v.Element, out var e) && Nominal(e, v.Parameter) is not null).DistinctBy(v => Key(elements[v.Element], v.Parameter))];
        _batch = new(network, all);
        _nominal = [.. all.Select(v => Nominal(elements[v.Element], v.Parameter)!.Value)];
        for (var k = 0; k < all.Length; k++) _index[(all[k].Element, all[k].Parameter)] = k;
    }

    /// <summary>How many variants so far.</summary>
    public int Count => _rows.Count;

    /// <summary>Can this be changed?</summary>
    public bool Holds(string element, Parameter parameter) => _index.ContainsKey((element, parameter));

    /// <summary>The nominal value of what can be changed.</summary>
    public double NominalOf(string element, Parameter parameter) => _nominal[_index[(element, parameter)]];

    /// <summary>Adds a variant; changes of what is not held are passed over.</summary>
    /// <returns>Its number.</returns>
    public int Add(IEnumerable<(string Element, Parameter Parameter, double Value)> changes)
    {
        var row = (double[])_nominal.Clone();
        foreach (var (element, parameter, value) in changes)
            if (_index.TryGetValue((element, parameter), out var k)) row[k] = value;
        _rows.Add(row);
        return _rows.Count - 1;
    }

    /// <summary>Solves all variants added so far.</summary>
    public BatchResult Solve()
    {
        // Without anything to vary there is one answer, and it is the nominal one.
        if (_nominal.Length == 0) throw new InvalidOperationException("Nothing varies.");
        return _batch.Solve([.. _rows.SelectMany(r => r)]);
    }

    public bool IsEmpty => _nominal.Length == 0;

    // A control is one thing to vary, whether by its resistance or by its setting.
    private static (string, Parameter) Key(Element element, Parameter parameter) => (element.Name, element is Control ? Parameter.Position : parameter);

    private static double? Nominal(Element element, Parameter parameter) => (element, parameter) switch
    {
        (Resistor e, Parameter.Ohms) => e.Ohms,
        (Capacitor e, Parameter.Ohms) => e.LeakOhms,
        (Inductor e, Parameter.Ohms) => e.Ohms,
        (Fuse e, Parameter.Ohms) => e.Ohms,
        (Filament e, Parameter.Ohms) => e.RatedVolts / e.RatedAmperes,
        (Thermistor e, Parameter.Ohms) => e.ColdOhms,
        (Switch e, Parameter.Ohms) => e.Closed ? 0 : double.PositiveInfinity,
        (Control e, Parameter.Ohms) => e.Ohms,
        (Control e, Parameter.Position) => e.Position,
        (Battery e, Parameter.Volts) => e.Volts,
        (Declared e, Parameter.Volts) => e.Volts,
        (CurrentDrain e, Parameter.Amperes) => e.Amperes,
        (GasRegulator e, Parameter.Volts) => e.RunVolts,
        (GasRegulator e, Parameter.Ohms) => e.SlopeOhms,
        (Converter { OscillatorPeakVolts: > 0 } e, Parameter.OscillatorVolts) => e.OscillatorPeakVolts,
        (Diode e, Parameter.Perveance) => e.Law.Perveance,
        (Triode e, Parameter.Perveance) => e.Law.Perveance,
        (Pentode e, Parameter.Perveance) => e.Law.Perveance,
        (Converter e, Parameter.Perveance) => e.Law.Perveance,
        _ => null,
    };
}
