using System.Collections.Frozen;
using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Preferred;

/// <summary>The preferred values of IEC 60063.</summary>
/// <remarks>
/// Method: 10^(i/N), rounded to two figures up to E24 and to three above, with the standard's exceptions: eight values of E24
/// are as the trade had them before the formula, and E192 has 9.20 where the formula gives 9.19. E3, E6 and E12 are every 8th, 4th and 2nd
/// of E24; E48 and E96 every 4th and 2nd of E192. Checked against data/reference/preferred-values.csv, every row.
/// </remarks>
public static class PreferredValues
{
    private static readonly FrozenDictionary<PreferredSeries, ImmutableArray<int>> Scaled =
        Enum.GetValues<PreferredSeries>().ToFrozenDictionary(s => s, Generate);

    /// <summary>The values of one decade, from 1 up to, not including, 10.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No such series.</exception>
    public static ImmutableArray<double> Decade(PreferredSeries series) =>
        [.. Of(series).Select(m => Numeral.Scale(m.ToString(System.Globalization.CultureInfo.InvariantCulture), -Figures(series) + 1))];

    /// <summary>The value of the series that is nearest by ratio; of two equally near ones the lower.</summary>
    /// <param name="value">Above 0, any unit.</param>
    /// <param name="series">The series.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not above 0 and finite, or no such series.</exception>
    public static double Nearest(double value, PreferredSeries series)
    {
        ThrowUnlessPositive(value);
        return Around(value, series).MinBy(v => (Distance(value, v), v));
    }

    /// <summary>The value of the series nearest by ratio among those that a tolerance about the value holds; null when it holds none.</summary>
    /// <param name="value">Above 0.</param>
    /// <param name="window">What may be fitted: −10 +100 % for an electrolytic.</param>
    /// <param name="series">The series.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not above 0 and finite, or no such series.</exception>
    public static double? NearestWithin(double value, Tolerance window, PreferredSeries series)
    {
        ThrowUnlessPositive(value);
        var inside = Within(Math.Max(window.Low(value), value / 1000), window.High(value), series);
        return inside.IsEmpty ? null : inside.MinBy(v => (Distance(value, v), v));
    }

    /// <summary>All values of the series from low to high, ends included (to a part in 10⁹), rising.</summary>
    /// <param name="low">Above 0.</param>
    /// <param name="high">At most 10¹² times low.</param>
    /// <param name="series">The series.</param>
    /// <returns>Empty when high is below low.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An end is not above 0 and finite, the range is wider than 12 decades, or no such series.</exception>
    public static ImmutableArray<double> Within(double low, double high, PreferredSeries series)
    {
        ThrowUnlessPositive(low);
        ThrowUnlessPositive(high);
        if (high / low > 1e12) throw new ArgumentOutOfRangeException(nameof(high), high, "Ask for 12 decades at most.");
        var values = ImmutableArray.CreateBuilder<double>();
        for (var decade = DecadeOf(low) - 1; decade <= DecadeOf(high) + 1; decade++)
            foreach (var mantissa in Of(series))
            {
                var value = Value(mantissa, decade, series);
                if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9)) values.Add(value);
            }
        return values.ToImmutable();
    }

    /// <summary>Is this a value of the series, to a part in 10⁶?</summary>
    /// <param name="value">Any number; what is not above 0 is in no series.</param>
    /// <param name="series">The series.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such series.</exception>
    public static bool Contains(double value, PreferredSeries series) =>
        Of(series) is var mantissas && value > 0 && double.IsFinite(value) && Mantissa(value, series, out _) is var m
        && Math.Round(m) is var whole && Math.Abs(whole / m - 1) < 1e-6 && (mantissas.BinarySearch((int)whole) >= 0 || (int)whole == 10 * mantissas[0]);

    private static ImmutableArray<int> Of(PreferredSeries series) => Scaled.TryGetValue(series, out var values)
        ? values
        : throw new ArgumentOutOfRangeException(nameof(series), series, "The series are E3, E6, E12, E24, E48, E96 and E192.");

    private static int Figures(PreferredSeries series) => series <= PreferredSeries.E24 ? 2 : 3;

    private static ImmutableArray<int> Generate(PreferredSeries series)
    {
        var count = (int)series;
        var coarse = series <= PreferredSeries.E24;
        var source = coarse ? 24 : 192;
        var step = source / count;
        return [.. Enumerable.Range(0, count).Select(i => coarse ? E24(i * step) : E192(i * step))];
    }

    // The exceptions: 2.7 3.0 3.3 3.6 3.9 4.3 4.7 (indices 10 to 16) and 8.2 (22).
    private static int E24(int index) => Formula(index, 24, 10) + index switch { >= 10 and <= 16 => 1, 22 => -1, _ => 0 };

    // The one exception: 9.20 (index 185).
    private static int E192(int index) => Formula(index, 192, 100) + (index == 185 ? 1 : 0);

    private static int Formula(int index, int count, int scale) =>
        (int)Math.Round(scale * Math.Pow(10, index / (double)count), MidpointRounding.AwayFromZero);

    // The values on both sides of this one, and one more on each for rounding.
    private static IEnumerable<double> Around(double value, PreferredSeries series)
    {
        var mantissas = Of(series);
        var found = mantissas.BinarySearch((int)Math.Floor(Mantissa(value, series, out var decade)));
        var at = found >= 0 ? found : ~found - 1;
        for (var i = at - 1; i <= at + 2; i++)
        {
            var turns = (int)Math.Floor(i / (double)mantissas.Length);
            yield return Value(mantissas[i - turns * mantissas.Length], decade + turns, series);
        }
    }

    // 0.0472 in E24 is 47.2 in the decade of -2.
    private static double Mantissa(double value, PreferredSeries series, out int decade)
    {
        decade = DecadeOf(value);
        var exponent = Figures(series) - 1 - decade;
        // In two steps where one power would overflow.
        return exponent > 300 ? value * 1e300 * Math.Pow(10, exponent - 300) : value * Math.Pow(10, exponent);
    }

    // Through text, so that 4.7e-9 is the same number as a typed 4.7e-9.
    private static double Value(int mantissa, int decade, PreferredSeries series) =>
        Numeral.Scale(mantissa.ToString(System.Globalization.CultureInfo.InvariantCulture), decade - Figures(series) + 1);

    private static int DecadeOf(double value) => (int)Math.Floor(Math.Log10(value));

    // Rounded, so that two equally near values tie.
    private static double Distance(double value, double candidate) =>
        candidate > 0 ? Math.Round(Math.Abs(Math.Log(candidate / value)), 12) : double.PositiveInfinity;

    private static void ThrowUnlessPositive(double value)
    {
        if (!(value > 0 && double.IsFinite(value)))
            throw new ArgumentOutOfRangeException(nameof(value), value, "A preferred value is above 0.");
    }
}
