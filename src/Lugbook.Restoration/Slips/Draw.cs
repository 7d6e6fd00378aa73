using Lugbook.Circuit;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Slips;

/// <summary>One healthy chassis out of many: every element with a value within its range.</summary>
/// <remarks>
/// Direct current: all resistances at their lowest, and all at their highest. Resistance between two nodes rises with every resistance of a network (Rayleigh's monotonicity law), so these two hold every chassis between
/// them. A frequency: no such law holds, so the middle, the four corners that all parts go to together, and corners that every part goes to by itself; coils, settings and rectifiers anywhere between.
/// Which corner follows from the element's name: the same book, the same draws.
/// </remarks>
internal readonly record struct Draw(int Number, bool IsDirect, double TestVolts)
{
    /// <summary>How many are drawn at a frequency.</summary>
    public const int AtFrequency = 21;

    /// <summary>All at their lowest, then all at their highest.</summary>
    public static Draw Direct(bool high, double testVolts) => new(high ? 1 : 0, true, testVolts);

    /// <summary>The elements of a chassis.</summary>
    public IEnumerable<Element> Of(IEnumerable<Element> elements, Func<string, Range> ranges)
    {
        foreach (var element in elements)
        {
            var range = ranges(element.Name);
            switch (element)
            {
                case Resistor e: yield return e with { Ohms = e.Ohms * Ohms(e.Name, range) }; break;
                case Inductor e: yield return e with { Ohms = e.Ohms * Ohms(e.Name, range), Henries = e.Henries * Spread(e.Name, 'L', 1 / Range.Henries, Range.Henries) }; break;
                case Transformer e:
                    var (ohms, henries) = (Ohms(e.Name, range), Spread(e.Name, 'L', 1 / Range.Henries, Range.Henries));
                    yield return e with { Windings = [.. e.Windings.Select(w => w with { Ohms = w.Ohms * ohms, Henries = w.Henries * henries })] };
                    break;
                case Capacitor e:
                    yield return e with
                    {
                        Farads = e.Farads * Corner(e.Name, 'C', range.FaradsLow, range.FaradsHigh), SeriesOhms = e.SeriesOhms * Ohms(e.Name, range),
                        LeakOhms = double.IsInfinity(range.LeakLow) ? double.PositiveInfinity : Siemens(Corner(e.Name, 'G', 1 / range.LeakLow, 1 / range.LeakHigh)),
                    };
                    break;
                case Control e when IsDirect:
                    // The slider may be anywhere: both halves at their least bound it from beneath, both at their most from above.
                    var half = e.Ohms * (Number == 0 ? 0.02 * 0.8 : 0.98 * 1.2);
                    yield return new Resistor($"{e.Name}\0a", e.A, e.Slider, half);
                    yield return new Resistor($"{e.Name}\0b", e.Slider, e.B, half);
                    break;
                case Control e: yield return e with { Ohms = e.Ohms * Ohms(e.Name, new(0.8, 1.2, 1, 1, 0, 0)), Position = 0.02 + 0.96 * Anywhere(e.Name, 'P') }; break;
                case Filament e: yield return e with { ColdShare = e.ColdShare * Ohms(e.Name, range) }; break;
                case Fuse e: yield return e with { Ohms = e.Ohms * Ohms(e.Name, range) }; break;
                case Thermistor e: yield return e with { ColdOhms = e.ColdOhms * Ohms(e.Name, range) }; break;
                case Diode { Law.NeedsHeat: false } e when IsDirect:
                    if (Number == 0) yield return new Resistor(e.Name, e.Anode, e.Cathode, Ports.RectifierOhms(e.Law, TestVolts) / Range.Rectifier);
                    break;
                case Diode { Law.NeedsHeat: false } e: yield return new Resistor(e.Name, e.Anode, e.Cathode, Ports.RectifierOhms(e.Law, 1e-6) * Spread(e.Name, 'D', 1 / Range.Rectifier, Range.Rectifier)); break;
                default: yield return element; break;
            }
        }
    }

    private static double Siemens(double g) => g > 0 ? 1 / g : double.PositiveInfinity;
    private double Ohms(string name, Range range) => Corner(name, 'R', range.OhmsLow, range.OhmsHigh);

    private double Corner(string name, char what, double low, double high)
    {
        if (IsDirect) return Number == 0 ? low : high;
        return Number switch
        {
            0 => low <= 0 || high <= 0 ? (low + high) / 2 : Math.Sqrt(low * high),
            1 or 2 or 3 or 4 => (what == 'C' ? Number > 2 : Number % 2 == 0) ? high : low,
            _ => Anywhere(name, what) < 0.5 ? low : high,
        };
    }

    private double Spread(string name, char what, double low, double high) => IsDirect || Number == 0 ? 1 : low * Math.Pow(high / low, Anywhere(name, what));

    // Fowler, Noll and Vo's hash, well mixed at its end: between 0 and 1.
    private double Anywhere(string name, char what)
    {
        unchecked
        {
            var hash = 14695981039346656037UL;
            foreach (var c in name) hash = (hash ^ c) * 1099511628211UL;
            hash = (hash ^ what) * 1099511628211UL;
            hash = (hash ^ (uint)Number) * 1099511628211UL;
            hash ^= hash >> 33;
            hash *= 0xff51afd7ed558ccdUL;
            hash ^= hash >> 33;
            return (hash >> 11) * (1.0 / (1UL << 53));
        }
    }
}
