namespace Lugbook.Trade.Entry.Lines;

/// <summary>One word of a bench note with its place in the line.</summary>
/// <param name="Text">The word without punctuation round it, signs in one spelling.</param>
/// <param name="At">Index of its first character in the line.</param>
/// <param name="End">Index after its last character.</param>
/// <param name="CommaAfter">A comma or the like stands between it and the next word.</param>
/// <param name="Quoted">It stood in quotation marks: a remark.</param>
internal readonly record struct Word(string Text, int At, int End, bool CommaAfter = false, bool Quoted = false)
{
    /// <summary>The text in lower case without dots, for looking words up: "V.D.C." is "vdc".</summary>
    public string Key => Text.Replace(".", "", StringComparison.Ordinal).Replace("'s", "", StringComparison.OrdinalIgnoreCase).ToLowerInvariant();

    /// <summary>Is it one of these (lower-case) words?</summary>
    public bool Is(params ReadOnlySpan<string> words) => !Quoted && words.Contains(Key);
}
