using System.Text;

namespace Lugbook.Trade.Quantities;

/// <summary>A text with its typographic variety folded to one form, which still knows where each character came from.</summary>
/// <remarks>
/// Both micro signs become µ, both ohm signs Ω; all dashes -, all blanks a space, the raised British point a full stop,
/// full-width and squared forms (㎌) their plain letters. Vulgar fractions stay: they join a whole number before them.
/// </remarks>
internal sealed class FoldedText
{
    private readonly int[] _source;

    private FoldedText(string original, string text, int[] source) => (Original, Text, _source) = (original, text, source);

    /// <summary>As it was written.</summary>
    public string Original { get; }
    /// <summary>As it is read.</summary>
    public string Text { get; }

    /// <summary>Index in <see cref="Original"/> of the character at this index of <see cref="Text"/>; the length at the end.</summary>
    public int SourceOf(int at) => at >= _source.Length ? Original.Length : _source[at];

    /// <summary>Folds a text. Never throws, whatever is in it.</summary>
    public static FoldedText Of(string original)
    {
        var text = new StringBuilder(original.Length);
        var source = new List<int>(original.Length);
        for (var i = 0; i < original.Length; i++)
            foreach (var c in Fold(original[i]))
            {
                text.Append(c);
                source.Add(i);
            }
        return new(original, text.ToString(), [.. source]);
    }

    private static string Fold(char c) => c switch
    {
        < '\u0080' => char.IsControl(c) || c is '"' ? " " : c == '`' ? "'" : c.ToString(),
        '\u200B' or '\u200C' or '\u200D' or '\u2060' or '\uFEFF' or '\u00AD' => "",   // invisible
        '\u03BC' or '\u00B5' => "µ",
        '\u03A9' or '\u2126' => "Ω",
        '\u039C' => "M",                                                               // Greek capitals that look Latin
        '\u039A' => "K",
        >= '\u2010' and <= '\u2015' or '\u2212' or '\uFE58' or '\uFE63' => "-",
        '\u2026' => "-",                                                               // 10…365 is a range
        '\u00D7' or '\u2715' or '\u2716' or '\u2A2F' => "×",
        '\u00B7' or '\u2219' or '\u22C5' or '\u2022' or '\u02D9' => ".",
        '\u2018' or '\u2019' or '\u201B' or '\u2032' or '\u00B4' or '\u02B9' => "'",
        '\u201C' or '\u201D' or '\u201E' or '\u00AB' or '\u00BB' or '\u2033' => " ",
        '\u2248' or '\u223C' or '\u223F' or '\u02DC' or '\u301C' => "~",
        '\u2044' or '\u2215' => "/",
        '\u00BA' or '\u02DA' => "°",
        '\u2213' => "±",
        '\u338A' => "pF",
        '\u338B' => "nF",
        '\u338C' => "µF",
        '\u33C0' => "kΩ",
        '\u33C1' => "MΩ",
        '\u33B8' => "kV",
        '\u3382' => "µA",
        '\u3383' => "mA",
        '\u33BD' => "mW",
        >= '\uFF01' and <= '\uFF5E' => Fold((char)(c - 0xFEE0)),
        '\u3000' => " ",
        _ when char.IsWhiteSpace(c) || char.IsControl(c) => " ",
        _ => c.ToString(),
    };
}
