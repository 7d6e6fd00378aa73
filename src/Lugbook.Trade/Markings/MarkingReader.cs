namespace Lugbook.Trade.Markings;

/// <summary>The Read stage: what was this part? Text and colours become ranked meanings.</summary>
public static class MarkingReader
{
    /// <summary>Reads a marking of either sort: colour names when every word is one, text otherwise.</summary>
    /// <param name="marking">As found on the part; '?' stands for what cannot be read.</param>
    /// <param name="context">What helps to rank.</param>
    /// <returns>Ranked meanings, or the complaint. Never throws on bad input.</returns>
    public static MarkingResult Read(string marking, MarkingContext? context = null) =>
        ColourMarking.LooksLikeColours(marking)
            ? ColourMarking.Read(marking, context)
            : TextMarking.Read(marking, context);
}
