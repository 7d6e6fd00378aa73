namespace Lugbook.Trade.Markings;

/// <summary>Reads printed values: old and new spellings, letter codes, three-digit codes.</summary>
/// <remarks>
/// Method: docs in Markings/Text, one idea a file: fold the typography, cut into tokens, collect facts in any order, then weigh every way
/// to take the value. The machine's culture never matters. Shares are judgement: see <c>Belief</c>.
/// </remarks>
public static class TextMarking
{
    /// <summary>All valid meanings of a printed marking, likeliest first.</summary>
    /// <param name="marking">As found on the part or the sheet; ? stands for a character that cannot be read, up to three of them.</param>
    /// <param name="context">What helps to rank: the kind of part, the sheet's habit with M, the year, an expected value.</param>
    /// <returns>The meanings; or, when there is none, the complaint with the index of the first character that does not fit. Never throws, on any text.</returns>
    public static MarkingResult Read(string marking, MarkingContext? context = null) =>
        Text.TextReader.Read(marking ?? "", context ?? MarkingContext.None);
}
