using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>One colour as it was seen.</summary>
/// <param name="Colour">The colour; null when it cannot be read.</param>
/// <param name="Unsure">Written with a question mark behind it: "red?".</param>
/// <param name="At">Where it stands in the text.</param>
/// <param name="Place">The place that was named with it: "body"; empty when none was.</param>
internal readonly record struct Sighting(Colour? Colour, bool Unsure, int At, string Place);

/// <summary>The colours of a marking in the order of the text, and whether the places were named.</summary>
internal sealed record Sightings(string Text, ImmutableArray<Sighting> Seen, bool Placed)
{
    private const string Separators = " \t\r\n,;:=/|+->–—_()[]\"'\u00a0";

    private readonly record struct Word(string Text, int At, bool Doubted);

    /// <summary>Does this look like colours rather than like a printed value?</summary>
    /// <remarks>Misspelt words count when two colours stand beside them and nothing is a number, so that the complaint is about the colour.</remarks>
    public static bool Likely(string text)
    {
        var words = Words(text);
        var dots = words.Any(w => ColourWord.TellsDotPlaces(w.Text));
        int colours = 0, strange = 0;
        foreach (var word in words)
        {
            if (word.Text == "?") continue;
            var (sort, colour, _) = ColourWord.Of(word.Text, dots);
            switch (sort)
            {
                case WordSort.Colour when colour == Colour.None: break;
                case WordSort.Colour or WordSort.TwoColours or WordSort.NoCodeColour:
                    if (word.Text.Length > 1) colours++;
                    break;
                case WordSort.Unknown:
                    if (word.Text.Any(char.IsDigit)) return false;
                    strange++;
                    break;
            }
        }
        return colours > 0 && (strange == 0 || (colours >= 2 && strange <= colours));
    }

    /// <summary>The colours, or the complaint about the first word that is none.</summary>
    public static (Sightings? Seen, Complaint? Complaint) Of(string text)
    {
        var words = Words(text);
        var dots = words.Any(w => ColourWord.TellsDotPlaces(w.Text));
        var seen = new List<Sighting>();
        var place = "";
        var other = false;
        var firstIsPlace = words.Where(w => w.Text == "?" || ColourWord.Of(w.Text, dots).Sort is WordSort.Colour or WordSort.Place)
            .Select(w => (bool?)(w.Text != "?" && ColourWord.Of(w.Text, dots).Sort == WordSort.Place)).FirstOrDefault() ?? false;
        var hasBody = words.Any(w => w.Text == "body");
        var placed = dots || hasBody || words.Any(w => w.Text is "heavy" or "tip" or "spot") || (words.Any(w => w.Text == "end") && words.Any(w => w.Text == "dot"));

        foreach (var word in words)
        {
            if (word.Text == "?") { Add(new(null, false, word.At, "")); continue; }
            var (sort, colour, detail) = ColourWord.Of(word.Text, dots);
            switch (sort)
            {
                case WordSort.Colour when word.Text == "or" && seen.Count == 1:
                    // French gold stands last or before the last; second, it is the English word.
                    return (null, new("the marking", text, word.At, "'or' is read as gold, and gold never stands second",
                        "Write one colour with a question mark when two are possible: red? for red or orange."));
                case WordSort.Colour:
                    Add(new(colour, word.Doubted, word.At, ""));
                    break;
                case WordSort.Place when placed: NamePlace(detail); break;
                case WordSort.Place: break;
                case WordSort.Other: other = true; break;
                case WordSort.Filler:
                    if (hasBody && word.Text is "band" or "ring" or "stripe") NamePlace("dot");
                    break;
                case WordSort.TwoColours:
                    return (null, new("the marking", text, word.At, $"'{word.Text}' could be {detail}", "Write the colour in full."));
                case WordSort.NoCodeColour:
                    return (null, new("the marking", text, word.At, $"{word.Text} is in no colour code: it may be {detail}",
                        "Write the colour that it was, or ? when you cannot tell."));
                default:
                    var near = ColourWord.Nearest(word.Text);
                    return (null, new("the marking", text, word.At, $"'{word.Text}' is no colour of the codes",
                        near is null ? "Write colour names such as brown, black, orange, silver; ? for a colour that cannot be read." : $"Write {near}, if that is what it is."));
            }
        }
        return (new(text, [.. seen], placed), null);

        void Add(Sighting sighting)
        {
            seen.Add(firstIsPlace && placed ? sighting with { Place = place } : sighting);
            if (firstIsPlace) place = "";
        }

        void NamePlace(string name)
        {
            if (name == "end" && (other || seen.Any(s => s.Place == "end"))) name = "other end";
            other = false;
            if (firstIsPlace) place = name;
            else if (seen.Count > 0 && seen[^1].Place.Length == 0) seen[^1] = seen[^1] with { Place = name };
        }
    }

    private static List<Word> Words(string text)
    {
        var words = new List<Word>();
        for (var i = 0; i < text.Length;)
        {
            if (Separators.Contains(text[i], StringComparison.Ordinal)) { i++; continue; }
            if (text[i] == '?') { words.Add(new("?", i, false)); i++; continue; }
            var start = i;
            while (i < text.Length && text[i] != '?' && !Separators.Contains(text[i], StringComparison.Ordinal)) i++;
            var doubted = i < text.Length && text[i] == '?';
            words.Add(new(text[start..i].TrimEnd('.').ToLowerInvariant(), start, doubted));
            if (doubted) i++;
        }
        return words;
    }
}
