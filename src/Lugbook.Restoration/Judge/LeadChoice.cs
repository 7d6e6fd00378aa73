using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Judge;

/// <summary>A lead that may be lifted so that a part can be told.</summary>
/// <param name="Part">Whose lead.</param>
/// <param name="Lug">Where it is lifted.</param>
/// <param name="Others">Other leads and wires on that lug.</param>
/// <param name="Reach">0 at a strip, 1 at a control, can or transformer, 2 at a valve socket.</param>
internal sealed record LeadChoice(string Part, string Lug, int Others, int Reach)
{
    /// <summary>What stays in parallel with the part that is measured; null where nothing does.</summary>
    public Rest? Left { get; init; }
    /// <summary>The same at the frequency of a capacitance meter.</summary>
    public RestAt? LeftAt { get; init; }
    /// <summary>How finely an intact part would then be told: width of the true values that its reading allows, as a share of the width of its tolerance.</summary>
    public double Width { get; init; }
    /// <summary>The part's own lead, if another's is proposed in its place.</summary>
    public LeadChoice? InPlaceOf { get; init; }

    // Each lead on a lug is one more to keep aside while solder flows; a socket's contacts suffer from heat. Another part's lead must save at least two such troubles, since the own one separates wholly. Common practice, no source.
    private int Trouble(string measured) => Others + Reach + (Part == measured ? 0 : 1);

    /// <summary>Where it is, and what else is there: "at A-3 (2 others on that lug)".</summary>
    public string Where => string.Create(CultureInfo.InvariantCulture, $"at {Lug}{(Others == 0 ? " (alone on that lug)" : Others == 1 ? " (1 other on that lug)" : $" ({Others} others on that lug)")}");

    /// <summary>The part's own leads, easiest first.</summary>
    public static ImmutableArray<LeadChoice> Own(Part part, MapResult map) =>
        [.. part.Leads.Where(l => map.NodeByLug.ContainsKey(l.Lug)).Select(l => At(part, l.Lug, map)).OrderBy(c => c.Trouble(part.Name)).ThenBy(c => c.Lug, NaturalOrder.Names)];

    /// <summary>The lead to lift for ohms; null where no lead is on a known lug.</summary>
    /// <param name="part">What is measured.</param>
    /// <param name="map">The map.</param>
    /// <param name="place">What lies in parallel; null where it is not known.</param>
    /// <param name="width">Width of an intact reading's true values with that rest, as a share of the tolerance; above 1 where it could not be told.</param>
    public static LeadChoice? ForOhms(Part part, MapResult map, InPlace? place, Func<Rest, double> width) => Best(part, map, place?.Of(part)?.Paths ?? [], (choice, other) =>
        place!.Without(part, other) is { HasRectifier: false } left && width(left) is <= 1 and var w ? choice with { Left = left, Width = w } : null);

    /// <summary>The lead to lift for capacitance; null where no lead is on a known lug.</summary>
    public static LeadChoice? ForFarads(Part part, MapResult map, InPlace? place, double hertz, Func<RestAt, double> width) => Best(part, map, place is null ? [] : Neighbours(part, map), (choice, other) =>
        place!.At(part, hertz, other) is { Shunted: false } left && width(left) is <= 1 and var w ? choice with { LeftAt = left, Width = w } : null);

    private static LeadChoice? Best(Part part, MapResult map, ImmutableArray<string> paths, Func<LeadChoice, string, LeadChoice?> lifted)
    {
        if (Own(part, map).FirstOrDefault() is not { } own) return null;
        LeadChoice? best = null;
        foreach (var other in paths.Where(p => p != part.Name).Select(map.Book.Parts.Named).OfType<Part>().Where(p => p.Leads.Length == 2))
        {
            // Only what is easier than the own lead is worth computing.
            if (Own(other, map).FirstOrDefault() is not { } easiest || easiest.Trouble(part.Name) >= own.Trouble(part.Name) || lifted(easiest, other.Name) is not { } told) continue;
            if (best is null || (told.Trouble(part.Name), told.Width).CompareTo((best.Trouble(part.Name), best.Width)) < 0) best = told with { InPlaceOf = own };
        }
        return best ?? own;
    }

    // Whatever lies in parallel passes both nodes: the one with fewer leads names the suspects.
    private static ImmutableArray<string> Neighbours(Part part, MapResult map)
    {
        if (map.NodeOf(part.LeadA) is not { } a || map.NodeOf(part.LeadB) is not { } b) return [];
        return [.. new[] { a, b }.MinBy(n => n.Leads.Length)!.Leads.Select(l => l.Part.Name).Where(p => p != part.Name).Distinct().Take(MostTried)];
    }

    /// <summary>So many parts in parallel are tried at most.</summary>
    public const int MostTried = 8;

    private static LeadChoice At(Part part, string lug, MapResult map) => new(part.Name, lug, Beside(map, lug, part.Name), ReachOf(map, lug));

    private static int ReachOf(MapResult map, string lug) => map.Book.Mounts.Named(map.Book.Lugs.Named(lug)?.Mount)?.Kind switch
    {
        null or MountKind.Other or MountKind.TagStrip or MountKind.ScrewStrip or MountKind.EarthLug or MountKind.Chassis => 0,
        var kind when kind.Value.IsSocket() => 2,
        _ => 1,
    };

    private static int Beside(MapResult map, string lug, string part) =>
        map.Book.Parts.Count(p => p.Name != part && p.Leads.Any(l => string.Equals(l.Lug, lug, StringComparison.OrdinalIgnoreCase)))
        + map.Book.Wires.Count(w => string.Equals(w.From, lug, StringComparison.OrdinalIgnoreCase) || string.Equals(w.To, lug, StringComparison.OrdinalIgnoreCase));
}
