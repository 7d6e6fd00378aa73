using System.Collections.Immutable;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings;

/// <summary>Reads bands and dots.</summary>
/// <remarks>
/// Colours are written in the order of the code's layout (<see cref="ColourCodes.Families"/>), separated by blanks, commas, dashes or slashes;
/// "none" where no colour is, "?" where one cannot be read, "red?" where one is doubtful. Body-end-dot parts may be written in words:
/// "body red, end green, dot orange". Six dots are written row by row, or with their places: "TL red TC green …".
/// Codes, sources and how meanings are ranked: data/reference/colour-codes.csv.
/// </remarks>
public static class ColourMarking
{
    private const string Place = "the marking";

    /// <summary>True when every word is a colour name, "none", "?" or a place on the part, and at least one is a colour; true also
    /// when a misspelt word stands among at least two colours and nothing is a number.</summary>
    public static bool LooksLikeColours(string marking) => !string.IsNullOrWhiteSpace(marking) && Sightings.Likely(marking);

    /// <summary>All valid meanings of bands or dots, likeliest first.</summary>
    /// <param name="marking">The colours as found.</param>
    /// <param name="context">What helps to rank. A <see cref="MarkingContext.ColourCode"/> insists on one code: then colours that
    /// this code does not have where they stand are a complaint, and the turned reading is told in the remedy.</param>
    /// <returns>Ranked meanings, or the complaint. Never throws, whatever the text.</returns>
    public static MarkingResult Read(string marking, MarkingContext? context = null)
    {
        marking ??= "";
        context ??= MarkingContext.None;
        if (string.IsNullOrWhiteSpace(marking))
            return Fails(new(Place, marking, 0, "nothing is written", "Write the colours in order, such as brown black orange silver."));

        CodeLayout? named = null;
        if (!string.IsNullOrWhiteSpace(context.ColourCode))
        {
            named = CodeLayouts.Find(context.ColourCode);
            if (named is null)
                return Fails(new("the colour code", context.ColourCode, 0, "there is no colour code of this name",
                    $"Write one of {string.Join(", ", CodeLayouts.All.Select(l => l.Id))}; or none, to try all."));
        }

        var (sightings, complaint) = Sightings.Of(marking);
        if (sightings is null) return Fails(complaint!);
        if (sightings.Seen.All(s => s.Colour is null or Colour.None))
            return Fails(new(Place, marking, 0, "no colour can be read", "Write at least the colours that can be read, or measure the part."));

        var seen = sightings.Seen;
        IReadOnlyList<CodeLayout> layouts = named is null ? CodeLayouts.All : [named];
        if (sightings.Placed)
        {
            var (placed, codes, misplaced) = Placing.Arrange(sightings);
            if (misplaced is not null) return Fails(misplaced);
            if (named is not null && !codes.Contains(named.Id))
                return Fails(new(Place, marking, seen[0].At, $"the places named belong to {string.Join(" or ", codes)}, not to {named.Id}", "Leave out the code, or write the colours in its order without places."));
            seen = placed;
            layouts = named is null ? [.. CodeLayouts.All.Where(l => codes.Contains(l.Id))] : layouts;
        }

        var found = Search.Run(layouts, seen, context, named is not null);
        if (named is not null && !found.Filled && Insisted(found, named)) found.Candidates.Clear();
        return found.Candidates.Count == 0
            ? Fails(Refusal.Of(marking, seen, found, named, context))
            : new(Ranking.Meanings(found, named is not null, context), null);
    }

    // A code that was named is taken at its word: a colour that it does not have there is an error, not a part held upside down.
    private static bool Insisted(Found found, CodeLayout named) =>
        found.Faults.Any(f => f.Layout == named && f.Fault.OfTable) && found.Candidates.All(c => c.Turned);

    private static MarkingResult Fails(Complaint complaint) => new(ImmutableArray<Meaning>.Empty, complaint);
}
