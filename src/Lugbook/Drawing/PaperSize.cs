using System.Globalization;
using System.Text.RegularExpressions;

namespace Lugbook.Drawing;

/// <summary>Gives a drawing its size on paper: a unit is a millimetre, so an SVG that says so is printed to scale by any program.</summary>
internal static partial class PaperSize
{
    /// <summary>The same SVG with width and height in mm.</summary>
    /// <param name="svg">One of our own drawings.</param>
    /// <param name="scale">1 for full size, 0.5 for half.</param>
    public static string Of(string svg, double scale = 1) => ViewBox().Replace(svg, m =>
    {
        var numbers = m.Groups["box"].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        string Side(int i) => (double.Parse(numbers[i], CultureInfo.InvariantCulture) * scale).ToString("0.##", CultureInfo.InvariantCulture);
        return $"{m.Value} width=\"{Side(2)}mm\" height=\"{Side(3)}mm\"";
    }, 1);

    /// <summary>Width and height of the drawing, mm at full size.</summary>
    public static (double Width, double Height) Sides(string svg)
    {
        var numbers = ViewBox().Match(svg).Groups["box"].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return (double.Parse(numbers[2], CultureInfo.InvariantCulture), double.Parse(numbers[3], CultureInfo.InvariantCulture));
    }

    [GeneratedRegex("viewBox=\"(?<box>[^\"]+)\"")] private static partial Regex ViewBox();
}
