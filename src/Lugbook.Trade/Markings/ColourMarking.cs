namespace Lugbook.Trade.Markings;

/// <summary>Reads bands and dots.</summary>
public static class ColourMarking
{
    /// <summary>True when every word is a colour name, "none" or "?", and at least one is a colour.</summary>
    public static bool LooksLikeColours(string marking) => throw new NotSupportedException();

    /// <summary>All valid meanings of bands or dots, likeliest first.</summary>
    public static MarkingResult Read(string marking, MarkingContext? context = null) => throw new NotSupportedException();
}
