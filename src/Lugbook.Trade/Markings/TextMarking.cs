namespace Lugbook.Trade.Markings;

/// <summary>Reads printed values: old and new spellings, letter codes, three-digit codes.</summary>
public static class TextMarking
{
    /// <summary>All valid meanings of a printed marking, likeliest first.</summary>
    public static MarkingResult Read(string marking, MarkingContext? context = null) => throw new NotSupportedException();
}
