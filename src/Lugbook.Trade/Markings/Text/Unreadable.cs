using Lugbook.Trade.Preferred;

namespace Lugbook.Trade.Markings.Text;

/// <summary>Reads a marking in which ? stands for a character that cannot be read: every character that gives a made value is tried.</summary>
internal static class Unreadable
{
    private const string Figures = "0123456789";
    private const string InWord = "DFMKEGOHUVWCPAN";
    private const int MostUnknown = 3;
    private const int MostTries = 40;

    /// <summary>Is there a ? that belongs to a number or a word? One that stands alone is left to the grammar.</summary>
    public static bool IsIn(string text) => Places(text).Count > 0;

    /// <summary>The drafts of all ways to fill the gaps that give a made value; or the failure.</summary>
    public static List<Draft> Read(string text, MarkingContext context, out Failure? failure)
    {
        failure = null;
        var places = Places(text);
        if (!text.Any(char.IsAsciiDigit) && !text.Any(c => Quantities.Numeral.Vulgar(c) is not null))
        {
            failure = new(places[0], "no figure can be read", "Write the figures that can be read, or measure the part.");
            return [];
        }
        if (places.Count > MostUnknown)
        {
            failure = new(places[MostUnknown], $"more than {MostUnknown} characters cannot be read", "Measure the part, or read more of it with a lens.");
            return [];
        }

        var found = new Dictionary<(Quantities.Unit, string), Draft>();
        Failure? first = null;
        var same = 0;
        foreach (var filled in Fillings(text, places, places.Count > 2))
        {
            var drafts = TextReader.Drafts(filled, context, out var wrong);
            if (wrong is not null) first ??= wrong;
            // What is wrong whatever stands in the gap is not worth a thousand tries.
            same = wrong is not null && wrong == first ? same + 1 : -MostTries;
            if (same >= MostTries) break;
            var likely = Filling(filled, places);
            foreach (var one in drafts.Where(d => IsMade(d, text.Length == filled.Length)))
            {
                var draft = one with { Weight = one.Weight * likely * Common(one.Meaning) * Near(one.Meaning.Value, context.ExpectedValue) };
                var key = (draft.Meaning.Unit, string.Join(' ', draft.Meaning.Sections.Select(s => s.Value.ToString("G9", System.Globalization.CultureInfo.InvariantCulture) + "@" + s.RatedVolts?.ToString(System.Globalization.CultureInfo.InvariantCulture))));
                if (!found.TryGetValue(key, out var known)) found[key] = draft;
                else
                {
                    var meaning = known.Weight >= draft.Weight ? known.Meaning : draft.Meaning;
                    // Fillings that differ in the tolerance alone leave it open.
                    if (known.Meaning.Tolerance != draft.Meaning.Tolerance) meaning = meaning with { Tolerance = null };
                    found[key] = known with { Meaning = meaning, Weight = known.Weight + draft.Weight };
                }
            }
        }
        if (found.Count == 0)
        {
            failure = first is not null
                ? new(places[0], $"nothing in the place of ? makes a marking of it ({first.Problem})", "Look at the other characters again.")
                : new(places[0], "no figure in the place of ? makes a value that is or was made", "Look at the other characters again, or measure the part.");
            return [];
        }
        return [.. found.Values.Select(d => d with { Meaning = Doubted(d.Meaning, places.Count) })];
    }

    private static Meaning Doubted(Meaning m, int count) => m with
    {
        Reason = m.Reason.TrimEnd('.') + "; of the values that fit what can be read, " + (PreferredValues.Contains(m.Value, PreferredSeries.E12) ? "a common one." : "a possible one."),
        Doubts = m.Doubts.Add(count == 1 ? "one character cannot be read: measure it" : $"{count} characters cannot be read: measure it"),
    };

    private static bool IsMade(Draft draft, bool filled) =>
        draft.Weight > 1e-4 && draft.Meaning.Sections.All(s => (!filled || OldValues.IsMade(s.Value, draft.Meaning.Unit)) && (s.RatedVolts is not { } v || VoltageCodes.IsRating(v)));

    // A figure is likelier than a point or a letter in a gap.
    private static double Filling(string filled, List<int> places) =>
        places.Where(p => p < filled.Length).Aggregate(1.0, (w, p) => w * (char.IsAsciiDigit(filled[p]) ? 1 : filled[p] == '.' ? 0.3 : 0.5));

    // A meter's reading tells neighbours of a series apart.
    private static double Near(double value, double? expected) => expected is > 0 and var e && double.IsFinite(e)
        ? Math.Max(0.01, Math.Exp(-0.5 * Math.Pow(Math.Log(value / e) / Math.Log(1.05), 2)))
        : 1;

    // Values and volts that many parts have come first.
    private static double Common(Meaning m)
    {
        var weight = 1.0;
        foreach (var section in m.Sections)
        {
            var capacitor = m.Unit == Quantities.Unit.Farad;
            weight *= PreferredValues.Contains(section.Value, PreferredSeries.E12) ? 1 : OldValues.Contains(section.Value, m.Unit) ? (capacitor ? 0.9 : 0.6) : capacitor ? 0.08 : 0.35;
            if (section.RatedVolts is { } volts) weight *= volts is 25 or 50 or 63 or 150 or 160 or 200 or 250 or 350 or 400 or 450 or 500 or 600 or 630 or 1000 or 1600 ? 1 : volts is 100 or 300 or 475 or 800 or 1250 or 2000 ? 0.4 : 0.15;
        }
        return weight;
    }

    // Attached to a letter, a figure or a point.
    private static List<int> Places(string text)
    {
        var places = new List<int>();
        for (var i = 0; i < text.Length; i++)
            if (text[i] == '?' && Attached(text, i)) places.Add(i);
        return places;
    }

    private static bool Attached(string text, int at)
    {
        var (left, right) = (at, at);
        while (left > 0 && text[left - 1] == '?') left--;
        while (right + 1 < text.Length && text[right + 1] == '?') right++;
        bool Solid(int i) => i >= 0 && i < text.Length && (char.IsLetterOrDigit(text[i]) || text[i] is '.' or ',' or '/');
        return Solid(left - 1) || Solid(right + 1) || (left == 0 && right == text.Length - 1) || !text.Any(char.IsAsciiDigit);
    }

    private static IEnumerable<string> Fillings(string text, List<int> places, bool figuresOnly)
    {
        // A last ? after all the rest may be a tolerance letter or dirt: without it first.
        var last = places[^1];
        if (places.Count == 1 && last > 0 && (last == text.Length - 1 || text[last + 1] == ' ') && char.IsLetter(text[last - 1]))
            yield return text[..last] + text[(last + 1)..];
        var options = places.Select(p => figuresOnly ? Figures : Options(text, p)).ToArray();
        var picks = new int[places.Count];
        var letters = text.ToCharArray();
        while (true)
        {
            for (var i = 0; i < places.Count; i++) letters[places[i]] = options[i][picks[i]];
            yield return new string(letters);
            var turn = 0;
            while (turn < picks.Length && ++picks[turn] == options[turn].Length) picks[turn++] = 0;
            if (turn == picks.Length) yield break;
        }
    }

    private static string Options(string text, int at)
    {
        char At(int i) => i >= 0 && i < text.Length ? text[i] : ' ';
        var (before, after) = (At(at - 1), At(at + 1));
        if (char.IsLetter(before))   // 47K? is a figure or a tolerance; 4K? too; MF? is a unit
            return char.IsAsciiDigit(At(at - 2)) ? Figures + "JKMGF" : InWord;
        if (before == '/') return "2348";
        if (char.IsLetter(after)) return Figures;
        if (!char.IsAsciiDigit(before)) return before is '.' or ',' ? Figures : Figures + ".";
        return char.IsAsciiDigit(after) ? Figures + ".KRMnp" : Figures + "KMRJnp";
    }
}
