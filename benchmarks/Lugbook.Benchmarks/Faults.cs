using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Benchmarks;

/// <summary>The complete dictionary of single faults of a network: a variant each, all else as it should be.</summary>
/// <remarks>Resistor: open, half, double. Capacitor: shorted (1 Ω), leaking (100 kΩ). Valve or rectifier unit: dead, a millionth of its perveance.</remarks>
internal sealed class Faults
{
    private const double ShortOhms = 1, LeakOhms = 100e3, Dead = 1e-6;

    public Faults(Network network)
    {
        var varied = new List<Varied>();
        var nominal = new List<double>();
        var faults = new List<(int Parameter, double Value)>();
        foreach (var element in network.Elements)
        {
            switch (element)
            {
                case Resistor r when r.Ohms > 0 && double.IsFinite(r.Ohms): Add(Parameter.Ohms, r.Ohms, double.PositiveInfinity, r.Ohms / 2, r.Ohms * 2); break;
                case Capacitor c: Add(Parameter.Ohms, c.LeakOhms, ShortOhms, LeakOhms); break;
                case Diode d: Add(Parameter.Perveance, d.Law.Perveance, d.Law.Perveance * Dead); break;
                case Triode t: Add(Parameter.Perveance, t.Law.Perveance, t.Law.Perveance * Dead); break;
                case Pentode p: Add(Parameter.Perveance, p.Law.Perveance, p.Law.Perveance * Dead); break;
                case Converter v: Add(Parameter.Perveance, v.Law.Perveance, v.Law.Perveance * Dead); break;
            }

            void Add(Parameter parameter, double good, params ReadOnlySpan<double> bad)
            {
                foreach (var value in bad) faults.Add((varied.Count, value));
                varied.Add(new(element.Name, parameter));
                nominal.Add(good);
            }
        }
        Varied = [.. varied];
        Good = [.. nominal];
        Count = faults.Count;
        Values = new double[faults.Count * varied.Count];
        for (var f = 0; f < faults.Count; f++)
        {
            nominal.CopyTo(Values, f * varied.Count);
            Values[f * varied.Count + faults[f].Parameter] = faults[f].Value;
        }
        Names = [.. faults.Select(f => double.IsInfinity(f.Value) ? $"{Varied[f.Parameter].Element} open" : FormattableString.Invariant($"{Varied[f.Parameter].Element} {Varied[f.Parameter].Parameter} {f.Value:g4}"))];
    }

    public ImmutableArray<Varied> Varied { get; }
    /// <summary>The value of each as it should be.</summary>
    public double[] Good { get; }
    public int Count { get; }
    /// <summary>Variant after variant, as a batch takes them.</summary>
    public double[] Values { get; }
    public ImmutableArray<string> Names { get; }
}
