using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Fit;

/// <summary>What is on each lug, and what of it leaves.</summary>
internal sealed class Bench
{
    private readonly ILookup<string, FitLead> _leads;
    private readonly ILookup<string, WireEnd> _wires;
    private readonly HashSet<int> _goes;
    private readonly MapResult _map;
    private readonly FitRules _rules;
    private readonly Part[] _touchy;                    // parts that stay and suffer from heat
    private readonly Dictionary<string, ImmutableArray<string>> _hot = new(StringComparer.OrdinalIgnoreCase);

    public Bench(MapResult map, IReadOnlyList<Choice> work, Surroundings around, FitRules rules)
    {
        (_map, Around, _rules) = (map, around, rules);
        _goes = work.Select(c => c.PartId).ToHashSet();
        _leads = map.Book.Parts.SelectMany(p => p.Leads.Select(l => new FitLead(p.Id, p.Name, l.Letter, l.Lug))).ToLookup(l => l.Lug, StringComparer.OrdinalIgnoreCase);
        _wires = map.Book.Wires.SelectMany(w => new[] { (At: w.From, End: new WireEnd(w.Name, w.To, w.Kind == WireKind.Bond)), (At: w.To, End: new WireEnd(w.Name, w.From, w.Kind == WireKind.Bond)) })
            .ToLookup(w => w.At, w => w.End, StringComparer.OrdinalIgnoreCase);
        _touchy = [.. map.Book.Parts.Where(p => !_goes.Contains(p.Id) && Why(p) is not null)];
        Lugs = [.. work.SelectMany(c => c.Lugs).Distinct(StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Lugs that something leaves.</summary>
    public ImmutableArray<string> Lugs { get; }
    /// <summary>Distances in plan.</summary>
    public Surroundings Around { get; }
    /// <summary>Leads and wire ends on a lug.</summary>
    public int Ends(string lug) => _leads[lug].Count() + _wires[lug].Count(w => !w.Bond);
    /// <summary>Is so much on it that it is heavily soldered?</summary>
    public bool Crowded(string lug) => Ends(lug) >= _rules.CrowdedFrom;
    /// <summary>Parts that stay and whose bodies lie over a lug.</summary>
    public ImmutableArray<string> Over(string lug, int but) => Around.Find(lug) is not { } at ? []
        : [.. Around.Loose.Where(b => b.Part.Id != but && !_goes.Contains(b.Part.Id) && b.Slab.DistanceTo(at.At) < -0.5).Select(b => b.Part.Name)];
    public bool Goes(FitLead lead) => _goes.Contains(lead.PartId);
    public IEnumerable<FitLead> Off(string lug) => _leads[lug].Where(Goes);
    public IEnumerable<FitLead> Stay(string lug) => _leads[lug].Where(l => !Goes(l));
    public IEnumerable<WireEnd> Wires(string lug) => _wires[lug];

    /// <summary>A bond is a rivet or a tab of the lug itself: it does not hinder clearing. A wire does.</summary>
    public LugVerdict Verdict(string lug) => Stay(lug).Any() || Wires(lug).Any(w => !w.Bond) ? LugVerdict.SpliceOntoShortTails : LugVerdict.ClearToBareMetal;

    /// <summary>What on this lug, or on its mount, suffers from heat.</summary>
    public ImmutableArray<string> HeatSensitive(string lug)
    {
        if (!_hot.TryGetValue(lug, out var known)) _hot[lug] = known = Find(lug);
        return known;
    }

    private ImmutableArray<string> Find(string lug)
    {
        var found = new List<string>();
        var mount = _map.Book.Mounts.Named(_map.Book.Lugs.Named(lug)?.Mount);
        if (mount?.Kind is MountKind.IfCan or MountKind.CoilForm) found.Add($"{mount.Name}: fine wire and mica behind the lug");
        if (mount is not null && $"{mount.KindAsWritten} {mount.Note}".Contains("wafer", StringComparison.OrdinalIgnoreCase)) found.Add($"{mount.Name}: wafer contacts lose their spring");
        foreach (var lead in Stay(lug))
            if (_map.Book.Parts.ById(lead.PartId) is { } part && Why(part) is { } why) found.Add($"{part.Name}: {why}");
        foreach (var part in _touchy)
            if (Around.ToBody(lug, part) is { } apart && apart <= _rules.HeatMm && !Stay(lug).Any(l => l.PartId == part.Id))
                found.Add($"{part.Name}: {Why(part)}; its body is {Show.Number(Math.Round(apart, 1))} mm away in plan");
        return [.. found.Distinct()];
    }

    private static string? Why(Part part) => part.Kind switch
    {
        PartKind.CrystalDiode => "a crystal diode dies of heat",
        PartKind.SeleniumDiode or PartKind.SeleniumRectifier => "selenium gives off poison when heated",
        PartKind.Film when Says(part, "styr") => "polystyrene melts",
        PartKind.Film => "film shrinks when heated",
        PartKind.SilverMica or PartKind.Winding when Says(part, "sheet") => "a mica sheet in the can",
        _ => null,
    };

    private static bool Says(Part part, string word) => $"{part.KindAsWritten} {part.Marked} {part.Note}".Contains(word, StringComparison.OrdinalIgnoreCase);
}
