using System.Text.RegularExpressions;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>Which kind of part a list's words mean. Words of the trade in several languages, from memory; MKP, MKT and the like are the usual letters for film.</summary>
internal static partial class KindText
{
    /// <summary>The classes in a text; the Y class of a part that bears both (X1/Y2).</summary>
    public static SafetyClass ClassIn(string text)
    {
        var found = SafetyClass.None;
        foreach (Match m in Class().Matches(text))
        {
            var one = Enum.Parse<SafetyClass>($"{char.ToUpperInvariant(m.Groups[1].Value[0])}{m.Groups[2].Value}");
            // Of two Y classes or two X classes the lesser is believed.
            if (found == SafetyClass.None || IsY(one) && !IsY(found) || IsY(one) == IsY(found) && one > found) found = one;
        }
        return found;
    }

    /// <summary>The kind; null when no word names one.</summary>
    public static NewKind? Of(string text, SafetyClass safety)
    {
        var words = $" {HeaderText.Normal(text)} ";
        if (safety != SafetyClass.None) return Has(words, Ceramic()) ? NewKind.SafetyCeramic : Has(words, Film()) || !IsY(safety) ? NewKind.SafetyFilm : NewKind.SafetyCeramic;
        if (Has(words, MetalGlaze())) return NewKind.MetalGlaze;
        if (Has(words, MetalFilm())) return NewKind.MetalFilm;
        if (Has(words, MetalOxide())) return NewKind.MetalOxide;
        if (Has(words, Wirewound())) return NewKind.Wirewound;
        if (Has(words, CarbonFilm())) return NewKind.CarbonFilm;
        if (Has(words, C0G())) return NewKind.C0G;
        if (Has(words, Class2())) return NewKind.CeramicClass2;
        if (Has(words, Mica())) return NewKind.Mica;
        if (Has(words, Electrolytic())) return NewKind.Electrolytic;
        if (Has(words, Polypropylene())) return NewKind.Polypropylene;
        if (Has(words, Film())) return NewKind.Film;
        // A ceramic that does not name its class is taken for the poorer one.
        return Has(words, Ceramic()) ? NewKind.CeramicClass2 : null;
    }

    public static Unit UnitOf(NewKind kind) => kind is NewKind.MetalFilm or NewKind.CarbonFilm or NewKind.MetalOxide or NewKind.Wirewound or NewKind.MetalGlaze ? Unit.Ohm : Unit.Farad;

    private static bool IsY(SafetyClass c) => c is SafetyClass.Y1 or SafetyClass.Y2;
    private static bool Has(string words, Regex kind) => kind.IsMatch(words);

    [GeneratedRegex(@"(?<![A-Za-z0-9])([XxYy])([12])(?![0-9A-QS-Za-qs-z])")]
    private static partial Regex Class();
    [GeneratedRegex(@"\b(metal ?glaze|metallglasur\w*|high voltage film|hochspannungswiderst\w*)\b")]
    private static partial Regex MetalGlaze();
    [GeneratedRegex(@"\b(metal ?film|metall?ized film resistor|metallfilm|metallschicht\w*|couche metal\w*|film metal\w*|metaalfilm|strato metallico|pelicula metalica)\b")]
    private static partial Regex MetalFilm();
    [GeneratedRegex(@"\b(metal ?oxide|metalloxid\w*|oxyde metal\w*|oxide de metal|metaaloxide|ossido di metallo|oxido metalico)\b")]
    private static partial Regex MetalOxide();
    [GeneratedRegex(@"\b(wire ?wound|draht\w*|bobine\w*|draadgewonden|a filo|bobinad\w+|cement|cemented|zement\w*)\b")]
    private static partial Regex Wirewound();
    [GeneratedRegex(@"\b(carbon ?film|kohleschicht\w*|couche carbone|koolfilm|strato di carbone|pelicula de carbon)\b")]
    private static partial Regex CarbonFilm();
    [GeneratedRegex(@"\b(c0g|cog|np0|npo|class 1)\b")]
    private static partial Regex C0G();
    [GeneratedRegex(@"\b(x7r|x5r|x7s|x8r|y5[a-z]|z5u|class 2)\b")]
    private static partial Regex Class2();
    [GeneratedRegex(@"\b(mica|silver mica|glimmer\w*)\b")]
    private static partial Regex Mica();
    [GeneratedRegex(@"\b(electrolytic\w*|elko\w*|elektrolyt\w*|electrolytique|elco|elettrolitico|electrolitico|aluminium electrolytic|alu)\b")]
    private static partial Regex Electrolytic();
    [GeneratedRegex(@"\b(polypropylene?\w*|polypropyleen|polipropilene|polipropileno|[mf]kp\w*|mmkp|pp)\b")]
    private static partial Regex Polypropylene();
    [GeneratedRegex(@"\b(film|folien?\w*|foil|polyester|poliestere|poliester|polyethylene|[mf]kt\w*|mks\w*|pet|plastic film|kunststofffolie\w*|[mf]kp\w*|polypropylen\w*|paper)\b")]
    private static partial Regex Film();
    [GeneratedRegex(@"\b(ceramic\w*|keramik\w*|kerko|ceramique|keramisch\w*|ceramico|disc|scheibe\w*)\b")]
    private static partial Regex Ceramic();
}
