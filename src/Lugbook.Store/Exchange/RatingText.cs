using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>One figure of a rating: exactly one of the three is known, or none when it could not be read.</summary>
internal readonly record struct RatingPiece(int At, double? Volts, double? Watts, Tolerance? Tolerance);

/// <summary>Ratings in words: "400V", "1/2 W", "600 VDC 20%"; a bare figure is volts on a capacitor and watts on a resistor.</summary>
internal static partial class RatingText
{
    public static IEnumerable<RatingPiece> Pieces(string text, PartKind kind)
    {
        var at = 0;
        while (at < text.Length)
        {
            if (text[at] is ' ' or ',' or ';' or '/') { at++; continue; }
            var match = Piece().Match(text, at);
            if (!match.Success || match.Index != at) { yield return new(at, null, null, null); yield break; }
            yield return Read(match, kind);
            at += match.Length;
        }
    }

    private static RatingPiece Read(Match match, PartKind kind)
    {
        var figure = match.Groups[2].Success
            ? NumberText.Scaled(match.Groups[1].Value, 0) / NumberText.Scaled(match.Groups[2].Value, 0)
            : NumberText.Scaled(match.Groups[1].Value.Replace(',', '.'), 0);
        if (!double.IsFinite(figure)) return new(match.Index, null, null, null);
        var unit = match.Groups[3].Value;
        return unit switch
        {
            "%" when figure <= 100 => new(match.Index, null, null, Tolerance.Percent(figure)),
            "" when kind.IsCapacitor() => new(match.Index, figure, null, null),
            "" when kind.IsResistive() => new(match.Index, null, figure, null),
            _ when UnitWords.Of(unit) is { Unit: Unit.Volt } volts && figure * Math.Pow(10, volts.Power) <= 1e5 => new(match.Index, figure * Math.Pow(10, volts.Power), null, null),
            _ when UnitWords.Of(unit) is { Unit: Unit.Watt } watts => new(match.Index, null, figure * Math.Pow(10, watts.Power), null),
            _ => new(match.Index, null, null, null),
        };
    }

    [GeneratedRegex(@"[±]?\s*([0-9]*[.,]?[0-9]+)(?:/([0-9]+))?\s*(%|[A-Za-zµ=~]*)", RegexOptions.CultureInvariant)]
    private static partial Regex Piece();
}
