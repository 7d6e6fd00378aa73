using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>The volts that a winding's marking names: "rectifier filament 5 V 2 A" is 5.</summary>
internal static partial class WindingVolts
{
    public static double? Of(Part winding) =>
        winding.Marked is { } marked && Volts().Match(marked) is { Success: true } match
            ? double.Parse(match.Groups[1].Value.Replace(',', '.'), CultureInfo.InvariantCulture) : null;

    [GeneratedRegex(@"(\d+(?:[.,]\d+)?)\s*V\b", RegexOptions.IgnoreCase)] private static partial Regex Volts();
}
