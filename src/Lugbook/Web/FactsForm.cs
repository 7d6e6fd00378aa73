using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Lugbook.Trade;

namespace Lugbook.Web;

/// <summary>Reads the form of a set's facts.</summary>
internal static class FactsForm
{
    public static bool TryRead(
        BookFacts before, string? title, string? year, string? volts, string? hertz, string? common, string? story, MegHabit meg,
        [NotNullWhen(true)] out BookFacts? facts, out string? wrong)
    {
        facts = null;
        wrong = null;
        if (string.IsNullOrWhiteSpace(title)) wrong = "The set needs a name.";
        var y = Number(year, "The year", 1900, 2100, ref wrong);
        var v = Number(volts, "The line voltage", 1, 1000, ref wrong);
        var h = Number(hertz, "The line frequency", 10, 1000, ref wrong);
        if (wrong is not null) return false;
        facts = before with
        {
            Title = title!.Trim(), Year = y is { } whole ? (int)whole : null, LineVolts = v, LineHertz = h,
            CommonLug = Text(common), Story = Text(story), MegHabit = meg,
        };
        return true;
    }

    private static string? Text(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    internal static double? Number(string? text, string what, double low, double high, ref string? wrong)
    {
        if (Text(text) is not { } written) return null;
        if (double.TryParse(written.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= low && number <= high) return number;
        wrong ??= string.Create(CultureInfo.InvariantCulture, $"{what} '{written}' is not a number from {low} to {high}. Nothing was kept.");
        return null;
    }
}
