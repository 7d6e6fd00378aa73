using System.Collections.Frozen;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>What one written word says in a row of colours.</summary>
internal enum WordSort
{
    /// <summary>Neither a colour nor a word that goes with colours.</summary>
    Unknown,
    /// <summary>A colour, or "none".</summary>
    Colour,
    /// <summary>Could be two colours: "gr".</summary>
    TwoColours,
    /// <summary>A colour that no code has: "tan".</summary>
    NoCodeColour,
    /// <summary>A place on the part: "body", "tip".</summary>
    Place,
    /// <summary>"other", before an end.</summary>
    Other,
    /// <summary>Goes with the place: "thread", "left".</summary>
    Filler,
}

/// <summary>The vocabulary: colours in English, French and German, the letters of IEC 60757, common short forms.</summary>
internal static class ColourWord
{
    private static readonly FrozenDictionary<string, Colour> Names = Spellings(
        (Colour.None, "none nil missing bare blank same nothing no"),
        (Colour.Black, "black blk bk blck noir schwarz sw"),
        (Colour.Brown, "brown brn bn br brwn braun brun marron"),
        (Colour.Red, "red rd rouge rot"),
        (Colour.Orange, "orange org orn og orng orange"),
        (Colour.Yellow, "yellow yel ye ylw yl jaune gelb"),
        (Colour.Green, "green grn gn vert grün gruen"),
        (Colour.Blue, "blue blu bu bleu blau"),
        (Colour.Violet, "violet vio vt vi viol purple pur purp ppl violett"),
        (Colour.Grey, "grey gray gry gra gy gris grau"),
        (Colour.White, "white wht wh whi weiss weiß blanc"),
        (Colour.Gold, "gold golden gld gd or"),
        (Colour.Silver, "silver slv sil sr silv svr slvr argent silber"),
        (Colour.Pink, "pink pnk pk rose rosa"));

    private static readonly FrozenDictionary<string, string> Doubles = new Dictionary<string, string>
    {
        ["gr"] = "green (gn) or grey (gy)", ["bl"] = "black (bk) or blue (bu)", ["b"] = "black (bk), brown (bn) or blue (bu)",
        ["g"] = "green (gn), grey (gy) or gold (gd)", ["ro"] = "red (rd) or pink (pk)",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, string> NoCode = new Dictionary<string, string>
    {
        ["tan"] = "yellow that has aged, or faded brown", ["buff"] = "yellow or white that has aged", ["beige"] = "yellow or white that has aged",
        ["cream"] = "white that has aged", ["ivory"] = "white that has aged", ["maroon"] = "brown or red", ["lilac"] = "violet",
        ["magenta"] = "violet or red", ["mauve"] = "violet", ["turquoise"] = "blue or green", ["copper"] = "orange, brown or gold",
        ["bronze"] = "gold", ["brass"] = "gold", ["cyan"] = "blue or green", ["aqua"] = "blue or green", ["olive"] = "green or yellow",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, string> Places = new Dictionary<string, string>
    {
        ["body"] = "body", ["end"] = "end", ["tip"] = "end", ["ends"] = "end", ["dot"] = "dot", ["spot"] = "dot", ["middle"] = "dot", ["centre"] = "dot", ["center"] = "dot",
        ["heavy"] = "heavy thread", ["thick"] = "heavy thread", ["fine"] = "fine thread", ["thin"] = "fine thread",
        ["tl"] = "top left", ["tc"] = "top centre", ["tr"] = "top right", ["bl"] = "bottom left", ["bc"] = "bottom centre", ["br"] = "bottom right",
    }.ToFrozenDictionary();

    private static readonly FrozenSet<string> Fillers = new[]
    {
        "band", "bands", "ring", "rings", "stripe", "stripes", "thread", "and", "then", "with", "the", "a", "is",
        "colour", "coloured", "color", "colored", "light", "dark", "pale", "bright", "dull",
    }.ToFrozenSet();

    /// <summary>The sort of a word, in lower case; the colour or the detail that goes with it.</summary>
    /// <param name="word">Lower case.</param>
    /// <param name="dotPlaces">True when the marking names the places of six dots, so that "br" is bottom right.</param>
    public static (WordSort Sort, Colour Colour, string Detail) Of(string word, bool dotPlaces)
    {
        if (dotPlaces && Places.TryGetValue(word, out var dot)) return (WordSort.Place, default, dot);
        if (Names.TryGetValue(word, out var colour)) return (WordSort.Colour, colour, "");
        if (Doubles.TryGetValue(word, out var two)) return (WordSort.TwoColours, default, two);
        if (NoCode.TryGetValue(word, out var aged)) return (WordSort.NoCodeColour, default, aged);
        if (word is "other" or "second" or "far" or "opposite") return (WordSort.Other, default, "");
        if (!IsDotPlace(word) && Places.TryGetValue(word, out var place)) return (WordSort.Place, default, place);
        return Fillers.Contains(word) ? (WordSort.Filler, default, "") : (WordSort.Unknown, default, "");
    }

    /// <summary>A place of six dots that is no colour: one of them makes "bl" and "br" places too.</summary>
    public static bool TellsDotPlaces(string word) => word is "tl" or "tc" or "tr" or "bc";

    private static bool IsDotPlace(string word) => TellsDotPlaces(word) || word is "bl" or "br";

    /// <summary>The colour name that was most likely meant; null when none is near.</summary>
    public static string? Nearest(string word) => ColourNames.All.Select(c => c.Name())
        .Select(name => (name, distance: Distance(word, name)))
        .Where(n => n.distance <= (n.name.Length > 4 ? 2 : 1))
        .OrderBy(n => n.distance).Select(n => n.name).FirstOrDefault();

    // Letters to add, drop or change, or neighbours to swap: "blcak" is one from "black".
    private static int Distance(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++) d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++) d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
            for (var j = 1; j <= b.Length; j++)
            {
                d[i, j] = Math.Min(Math.Min(d[i - 1, j], d[i, j - 1]) + 1, d[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
            }
        return d[a.Length, b.Length];
    }

    private static FrozenDictionary<string, Colour> Spellings(params (Colour Colour, string Words)[] rows)
    {
        var all = new Dictionary<string, Colour>();
        foreach (var (colour, words) in rows)
            foreach (var word in words.Split(' ')) all[word] = colour;
        return all.ToFrozenDictionary();
    }
}
