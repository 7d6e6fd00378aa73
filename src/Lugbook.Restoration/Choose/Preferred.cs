using System.Collections.Immutable;
using System.Globalization;

namespace Lugbook.Restoration.Choose;

/// <summary>Values of the E series that shops stock. Source: IEC 60063.</summary>
internal static class Preferred
{
    private static readonly ImmutableArray<double> E24 = [1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1];

    /// <summary>One decade of the series of this name; null when it is none of those that we list.</summary>
    public static ImmutableArray<double>? Mantissas(string name)
    {
        var step = name.Trim().ToUpperInvariant() switch { "E3" => 8, "E6" => 4, "E12" => 2, "E24" => 1, _ => 0 };
        return step == 0 ? null : [.. E24.Where((_, i) => i % step == 0)];
    }

    /// <summary>All values from low to high, both included, rising.</summary>
    public static ImmutableArray<double> Between(ImmutableArray<double> mantissas, double low, double high)
    {
        var values = ImmutableArray.CreateBuilder<double>();
        for (var decade = (int)Math.Floor(Math.Log10(low)) - 1; Math.Pow(10, decade) <= high * 10; decade++)
            foreach (var m in mantissas)
            {
                var value = Round(m * Math.Pow(10, decade));
                if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9)) values.Add(value);
            }
        return values.ToImmutable();
    }

    /// <summary>Takes the noise of binary fractions out: 4.7E-08, not 4.7000000000000004E-08.</summary>
    public static double Round(double value) =>
        double.Parse(value.ToString("E6", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture);
}
