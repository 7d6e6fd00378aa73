using System.Globalization;

namespace Lugbook.Trade.Markings;

/// <summary>What a new capacitor bears instead of its value in words: two figures and the number of noughts, in pF.</summary>
public static class FigureCode
{
    /// <summary>The code: 22 nF is "223"; null when two figures cannot say it or when the part is too small or too large to bear one.</summary>
    /// <param name="farads">The nominal value, F.</param>
    /// <remarks>Source: IEC 60062, three-character code of capacitors. From 10 pF; above 10 µF parts bear their value in words (common practice, no source).</remarks>
    public static string? Of(double farads)
    {
        var picofarads = farads * 1e12;
        if (!(picofarads >= 9.95 && picofarads <= 1.0001e7)) return null;
        var noughts = (int)Math.Floor(Math.Log10(picofarads) + 1e-9) - 1;
        var figures = Math.Round(picofarads / Math.Pow(10, noughts));
        if (Math.Abs(figures * Math.Pow(10, noughts) - picofarads) > 1e-6 * picofarads) return null;
        return string.Create(CultureInfo.InvariantCulture, $"{figures:00}{noughts}");
    }
}
