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

    public Bench(MapResult map, IReadOnlyList<Choice> work)
    {
        _map = map;
        _goes = work.Select(c => c.PartId).ToHashSet();
        _leads = map.Book.Parts.SelectMany(p => p.Leads.Select(l => new FitLead(p.Id, p.Name, l.Letter, l.Lug))).ToLookup(l => l.Lug, StringComparer.OrdinalIgnoreCase);
        _wires = map.Book.Wires.SelectMany(w => new[] { (At: w.From, End: new WireEnd(w.Name, w.To, w.Kind == WireKind.Bond)), (At: w.To, End: new WireEnd(w.Name, w.From, w.Kind == WireKind.Bond)) })
            .ToLookup(w => w.At, w => w.End, StringComparer.OrdinalIgnoreCase);
        Lugs = [.. work.SelectMany(c => c.Lugs).Distinct(StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Lugs that something leaves.</summary>
    public ImmutableArray<string> Lugs { get; }
    public bool Goes(FitLead lead) => _goes.Contains(lead.PartId);
    public IEnumerable<FitLead> Off(string lug) => _leads[lug].Where(Goes);
    public IEnumerable<FitLead> Stay(string lug) => _leads[lug].Where(l => !Goes(l));
    public IEnumerable<WireEnd> Wires(string lug) => _wires[lug];

    /// <summary>A bond is a rivet or a tab of the lug itself: it does not hinder clearing. A wire does.</summary>
    public LugVerdict Verdict(string lug) => Stay(lug).Any() || Wires(lug).Any(w => !w.Bond) ? LugVerdict.SpliceOntoShortTails : LugVerdict.ClearToBareMetal;

    /// <summary>What on this lug, or on its mount, suffers from heat.</summary>
    public ImmutableArray<string> HeatSensitive(string lug)
    {
        var found = new List<string>();
        var mount = _map.Book.Mounts.Named(_map.Book.Lugs.Named(lug)?.Mount);
        if (mount?.Kind is MountKind.IfCan or MountKind.CoilForm) found.Add($"{mount.Name}: fine wire and mica behind the lug");
        if (mount is not null && $"{mount.KindAsWritten} {mount.Note}".Contains("wafer", StringComparison.OrdinalIgnoreCase)) found.Add($"{mount.Name}: wafer contacts lose their spring");
        foreach (var lead in Stay(lug))
            if (_map.Book.Parts.ById(lead.PartId) is { } part && Why(part) is { } why) found.Add($"{part.Name}: {why}");
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
