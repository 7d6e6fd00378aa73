using System.Collections.Frozen;
using System.Collections.Immutable;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>The words of bench notes that are neither numbers, units nor names.</summary>
internal static class Vocabulary
{
    /// <summary>Words that join or fill, and say nothing by themselves.</summary>
    private static readonly FrozenSet<string> Fillers = ("to from between and on at in of with is are was it the a an for by its goes go going across via & - / . + one there here "
        + "lead leads lug lugs pin pins tag tags terminal terminals end ends wired connected connects soldered joined runs run then part new add rated rating "
        + "fr btw betw thru w strip socket marked tol tolerance value now about approx each that this has other both off into onto under side ? x no type").Split(' ').ToFrozenSet();

    /// <summary>Kinds that bench notes shorten further than the exchange form does.</summary>
    private static readonly FrozenDictionary<string, string> Short = new Dictionary<string, string>
    {
        ["elect"] = "electrolytic", ["electro"] = "electrolytic", ["lytic"] = "electrolytic", ["elec"] = "electrolytic", ["electrolytic cap"] = "electrolytic",
        ["cer"] = "ceramic", ["ceramic disc"] = "disc ceramic", ["ceramic disk"] = "disc ceramic", ["disk"] = "disc ceramic", ["disc"] = "disc ceramic", ["disc cap"] = "disc ceramic",
        ["paper cap"] = "paper", ["wax"] = "paper", ["waxed paper"] = "paper", ["mica cap"] = "mica", ["film cap"] = "film", ["mylar"] = "film", ["poly"] = "film",
        ["ww"] = "wirewound", ["wire wound"] = "wirewound", ["wire-wound"] = "wirewound", ["wirewound resistor"] = "wirewound", ["smica"] = "silver mica", ["silver-mica"] = "silver mica",
        ["vol control"] = "volume control", ["tone control"] = "control", ["filter choke"] = "choke", ["bulb"] = "lamp", ["pilot"] = "pilot lamp", ["dial lamp"] = "lamp",
        ["coupling cap"] = "capacitor", ["bypass cap"] = "capacitor", ["variable"] = "variable capacitor", ["tuning cap"] = "variable capacitor", ["resister"] = "resistor",
        ["trimmer cap"] = "trimmer", ["cond"] = "condenser", ["xtal diode"] = "crystal diode", ["rectifier"] = "silicon rectifier", ["selenium rect"] = "selenium rectifier",
        ["ballast"] = "resistor", ["dropper"] = "resistor", ["filament winding"] = "winding", ["heater winding"] = "winding",
    }.ToFrozenDictionary();

    // Spellings of the exchange form that mean something else in a line of words.
    private static readonly FrozenSet<string> NotHere = new[] { "r", "c", "tube" }.ToFrozenSet();

    private static readonly FrozenDictionary<string, string> Kinds = PartKinds.Known
        .Where(k => !NotHere.Contains(k)).Select(k => KeyValuePair.Create(k.ToLowerInvariant(), k.ToLowerInvariant()))
        .Append(KeyValuePair.Create("tube", "valve"))
        .Concat(Short).GroupBy(k => k.Key).ToFrozenDictionary(g => g.Key, g => g.Last().Value);

    /// <summary>The names of electrodes and tags by which a lug may be called.</summary>
    private static readonly FrozenDictionary<string, string[]> Functions = new Dictionary<string, string[]>
    {
        ["plate"] = ["plate", "anode"], ["anode"] = ["anode", "plate"], ["grid"] = ["grid 1", "grid"], ["g1"] = ["grid 1"], ["g2"] = ["grid 2", "screen"], ["g3"] = ["grid 3", "suppressor"],
        ["screen"] = ["screen", "grid 2"], ["suppressor"] = ["suppressor", "grid 3"], ["cathode"] = ["cathode"], ["heater"] = ["heater"], ["filament"] = ["filament", "heater"],
        ["cap"] = ["cap"], ["wiper"] = ["wiper"], ["slider"] = ["wiper"], ["foot"] = ["mounting foot"], ["tip"] = ["tip"], ["sleeve"] = ["sleeve"], ["shell"] = ["shell"],
    }.ToFrozenDictionary();

    // Words of remarks that a single letter divides from a word of the trade.
    private static readonly FrozenSet<string> OrdinaryWords = "place placed plated plates slate taper tapers tapped later water wafer paler taped caper fused soils boiled goil voice joke chokes mixed movie moves".Split(' ').ToFrozenSet();

    /// <summary>Is it a word that fills?</summary>
    public static bool IsFiller(string key) => Fillers.Contains(key);

    /// <summary>What the book may call the lug of this name: "plate"; null when it is no such name.</summary>
    public static string[]? LugFunction(string key) => Functions.GetValueOrDefault(key);

    /// <summary>The longest kind that begins at a word, and how many words it takes.</summary>
    public static (string? Kind, int Count) KindAt(ImmutableArray<Word> words, int i)
    {
        for (var count = Math.Min(3, words.Length - i); count >= 1; count--)
        {
            if (Enumerable.Range(i, count).Any(k => words[k].Quoted)) continue;
            if (Kinds.TryGetValue(string.Join(' ', words.Skip(i).Take(count).Select(w => w.Key)), out var kind)) return (kind, count);
        }
        return (null, 0);
    }

    /// <summary>A known word that this one misses by a single letter, or null: "wipper" for "wiper".</summary>
    public static string? Near(string key)
    {
        if (key.Length < 5 || OrdinaryWords.Contains(key)) return null;
        foreach (var known in Kinds.Keys.Concat(["wiper", "minus", "negative", "positive", "between", "slider", "cathode", "anode", "chassis", "percent", "volts", "watts", "moved", "plate", "screen", "heater", "suppressor"]))
            if (known.Length >= 5 && known != key && known + "s" != key && !known.Contains(' ', StringComparison.Ordinal) && IsOneOff(known, key) && (key.Length > 5 || known.Length != key.Length || known[0] == key[0])) return known;
        return null;
    }

    private static bool IsOneOff(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 1) return false;
        var start = 0;
        while (start < a.Length && start < b.Length && a[start] == b[start]) start++;
        var (endA, endB) = (a.Length, b.Length);
        while (endA > start && endB > start && a[endA - 1] == b[endB - 1]) { endA--; endB--; }
        return endA - start <= 1 && endB - start <= 1
            || (endA - start == 2 && endB - start == 2 && a[start] == b[start + 1] && a[start + 1] == b[start]);
    }
}
