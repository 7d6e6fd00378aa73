using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Judge;

/// <summary>What becomes of a family of parts in this book, unless a reading or the user says otherwise.</summary>
/// <remarks>Defaults: the trade's (common practice: paper and electrolytics are replaced, mica, ceramic and film left, resistors measured). Two schools exist, and both are respectable.</remarks>
public sealed record FamilyPolicy
{
    /// <summary>Families, in the order in which they are shown.</summary>
    public static ImmutableArray<(string Word, string InWords, Decision Usual, string Why)> Families { get; } =
    [
        ("paper", "paper capacitors", Decision.Goes, "Paper capacitors leak after so many years; hardly any passes a test at working voltage."),
        ("electrolytic", "electrolytics", Decision.Goes, "Old electrolytics dry out, leak or short."),
        ("mica", "mica capacitors", Decision.Stays, "Mica lasts; it goes only on evidence. Make sure it is mica: some paper capacitors wear the same case."),
        ("ceramic", "ceramic capacitors", Decision.Stays, "Ceramic lasts; it goes only on evidence."),
        ("film", "film capacitors", Decision.Stays, "Film lasts; it goes only on evidence."),
        ("resistor", "resistors", Decision.MeasureFirst, "Measure it: composition drifts, nearly always upwards; beyond its tolerance it goes."),
        ("control", "controls", Decision.MeasureFirst, "Clean it, then measure the track; beyond 30 % it goes (common practice, no source)."),
        ("selenium", "selenium rectifiers", Decision.Goes, "Selenium loses volts, then shorts with poisonous smoke: silicon and a resistor take its place."),
        ("winding", "windings", Decision.MeasureFirst, "Measure it: a winding is whole or open."),
        ("capacitor", "capacitors of no known kind", Decision.MeasureFirst, "Its kind is not entered: find out first. Paper and electrolytic go, mica and ceramic stay."),
    ];

    /// <summary>What differs from the trade's defaults.</summary>
    public ImmutableSortedDictionary<string, Decision> Own { get; init; } = ImmutableSortedDictionary<string, Decision>.Empty;

    /// <summary>What differs for a family at a place or of a time: "at a grid", "on the line", "made before 1946".</summary>
    public ImmutableArray<(string Family, string Place, Decision Decision)> Places { get; init; } = [];

    /// <summary>The decision for a part's family, and why.</summary>
    /// <param name="kind">The part's kind.</param>
    /// <param name="places">Where it is; what is said of a place comes before what is said of the family.</param>
    public (Decision Decision, string Why)? For(PartKind kind, IReadOnlyCollection<string> places)
    {
        if (FamilyOf(kind) is not { } word) return null;
        var family = Families.First(f => f.Word == word);
        if (Places.FirstOrDefault(p => p.Family == word && places.Contains(p.Place)) is { Family: not null } here)
            return (here.Decision, $"This book's policy: {family.InWords} {here.Place} {here.Decision switch { Decision.Goes => "go", Decision.Stays => "stay unless one measures bad", _ => "are measured first" }}.");
        if (!Own.TryGetValue(word, out var own) || own == family.Usual) return (family.Usual, family.Why);
        return (own, own switch
        {
            Decision.Goes => $"This book's policy: {family.InWords} go.",
            Decision.Stays => $"This book's policy: {family.InWords} stay unless one measures bad.",
            _ => $"This book's policy: {family.InWords} are measured first.",
        });
    }

    /// <summary>The policy's word for a kind; null for a kind that nobody judges as a family.</summary>
    public static string? FamilyOf(PartKind kind) => kind switch
    {
        PartKind.Paper => "paper",
        PartKind.Electrolytic => "electrolytic",
        PartKind.Mica or PartKind.SilverMica => "mica",
        PartKind.Ceramic => "ceramic",
        PartKind.Film => "film",
        PartKind.Resistor => "resistor",
        PartKind.Control => "control",
        PartKind.SeleniumRectifier => "selenium",
        PartKind.Winding => "winding",
        PartKind.Capacitor => "capacitor",
        _ => null,
    };

    /// <summary>Reads "paper: stays; paper at a grid: goes; resistor: measure first"; what is not understood is told.</summary>
    public static (FamilyPolicy Policy, ImmutableArray<string> NotUnderstood) Read(string? text)
    {
        var own = ImmutableSortedDictionary.CreateBuilder<string, Decision>(StringComparer.Ordinal);
        var places = ImmutableArray.CreateBuilder<(string, string, Decision)>();
        var wrong = ImmutableArray.CreateBuilder<string>();
        foreach (var entry in (text ?? "").Split([';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var halves = entry.Split([':', '='], 2, StringSplitOptions.TrimEntries);
            // "paper at a grid": the family is the first word, the rest a place.
            var words = halves[0].Split(' ', 2, StringSplitOptions.TrimEntries);
            var family = Families.FirstOrDefault(f => halves.Length == 2 && (f.Word.Equals(words[0], StringComparison.OrdinalIgnoreCase) || $"{f.Word}s".Equals(words[0], StringComparison.OrdinalIgnoreCase)));
            var place = words.Length < 2 ? null : PolicyPlace.Read(words[1]);
            if (family.Word is null || Word(halves[1]) is not { } decision || words.Length == 2 && place is null)
                wrong.Add($"Of the policy, '{entry}' is not understood: write a family ({string.Join(", ", Families.Select(f => f.Word))}), if need be a place ({string.Join(", ", PolicyPlace.Words)}) or a time (made before 1946, made from 1950), a colon, and goes, stays or measure first.");
            else if (place is null) own[family.Word] = decision;
            else places.Add((family.Word, place, decision));
        }
        return (new() { Own = own.ToImmutable(), Places = places.ToImmutable() }, wrong.ToImmutable());
    }

    /// <summary>As <see cref="Read"/> reads it; empty for the trade's defaults.</summary>
    public string Write() => string.Join("; ", [.. Own.Where(o => Families.First(f => f.Word == o.Key).Usual != o.Value).Select(o => $"{o.Key}: {Said(o.Value)}"), .. WritePlaces().Split("; ", StringSplitOptions.RemoveEmptyEntries)]);

    /// <summary>What is said of places alone: "paper at a grid: goes".</summary>
    public string WritePlaces() => string.Join("; ", Places.Select(p => $"{p.Family} {p.Place}: {Said(p.Decision)}"));

    private static string Said(Decision decision) => decision switch { Decision.Goes => "goes", Decision.Stays => "stays", _ => "measure first" };

    /// <summary>In a sentence.</summary>
    public string InWords()
    {
        string List(Decision decision) => string.Join(", ", Families.Where(f => (Own.TryGetValue(f.Word, out var own) ? own : f.Usual) == decision).Select(f => f.InWords));
        return $"Goes: {List(Decision.Goes)}. Stays unless it measures bad: {List(Decision.Stays)}. Measured first: {List(Decision.MeasureFirst)}.{(Places.IsEmpty ? "" : $" But {WritePlaces()}.")}";
    }

    private static Decision? Word(string text) => text.Trim().ToLowerInvariant() switch
    {
        "goes" or "go" or "replace" or "all" => Decision.Goes,
        "stays" or "stay" or "leave" or "keep" => Decision.Stays,
        "measure first" or "measure" or "test" or "evidence" => Decision.MeasureFirst,
        _ => null,
    };
}
