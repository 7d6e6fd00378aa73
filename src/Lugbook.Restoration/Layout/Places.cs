using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout;

/// <summary>A lug with a place.</summary>
/// <param name="Id">Row identity; 0 when only a part or a wire names it.</param>
/// <param name="Name">Its name.</param>
/// <param name="Mount">Name of its mount.</param>
/// <param name="No">Its number on the mount.</param>
/// <param name="Row">Its row, if it has one.</param>
/// <param name="At">Chassis mm.</param>
/// <param name="Measured">False when the place is proposed.</param>
public sealed record PlacedLug(int Id, string Name, string Mount, int? No, Lug? Row, Pt At, bool Measured)
{
    /// <summary>Radius of its eyelet, mm: smaller among close neighbours.</summary>
    public double Radius { get; init; } = 1.4;
    /// <summary>A contact at the top of a valve, not at its socket.</summary>
    public bool IsCap => Name.EndsWith("-cap", StringComparison.OrdinalIgnoreCase);
    /// <summary>A mounting foot, riveted to the chassis.</summary>
    public bool IsFoot => Row is not null && ((Row.Function?.Contains("foot", StringComparison.OrdinalIgnoreCase) ?? false)
        || (Row.Note?.StartsWith("foot", StringComparison.OrdinalIgnoreCase) ?? false));
    /// <summary>What is written beside it: its number, or what follows its mount's name.</summary>
    public string ShortName => No?.ToString(System.Globalization.CultureInfo.InvariantCulture) is { } no && !IsCap ? no
        : Name.StartsWith(Mount + "-", StringComparison.OrdinalIgnoreCase) ? Name[(Mount.Length + 1)..] : Name;
}

/// <summary>A mount with its lugs.</summary>
/// <param name="Id">Row identity; 0 when only a lug names it.</param>
/// <param name="Name">Its name.</param>
/// <param name="Kind">What it is.</param>
/// <param name="KindAsWritten">What people call it.</param>
/// <param name="Lugs">Its lugs.</param>
/// <param name="Anchor">Where it is when it has no lugs.</param>
/// <param name="Measured">At least one of its lugs is measured.</param>
public sealed record PlacedMount(int Id, string Name, MountKind Kind, string KindAsWritten, ImmutableArray<PlacedLug> Lugs, Pt Anchor, bool Measured);

/// <summary>Every lug of a book with a place: measured, completed from its mount's template, or proposed.</summary>
/// <remarks>
/// Order of trust: a measured place stands as it is. A mount that is measured in part is completed by its template, turned and
/// scaled to the measured lugs. A mount that is not measured at all stands on a grid to the right of what is.
/// Lugs that only parts or wires name are drawn too, on the mount that their name tells.
/// </remarks>
public sealed class Places
{
    private const double Farthest = 5000;   // mm; a coordinate beyond this is a slip of the pen, not a chassis
    private const double Gap = 24;         // mm between proposed mounts: room for parts
    private readonly Dictionary<string, PlacedLug> _byName = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Every mount, in the order of the book; then those that only lugs name.</summary>
    public ImmutableArray<PlacedMount> Mounts { get; }
    /// <summary>Every lug, mount by mount.</summary>
    public ImmutableArray<PlacedLug> Lugs { get; }
    /// <summary>Where proposed mounts stand; null when every mount is measured.</summary>
    public Box? ProposedZone { get; }
    /// <summary>True when at least one lug is measured.</summary>
    public bool AnyMeasured { get; }

    /// <summary>The lug of this name; null when there is none.</summary>
    public PlacedLug? Find(string? name) => name is not null && _byName.TryGetValue(name, out var lug) ? lug : null;

    internal Places(Book book)
    {
        var drafts = Drafts(book);
        AnyMeasured = drafts.Any(d => d.Found.Any(f => f is not null));
        var done = new List<PlacedMount>();
        var waiting = new List<Draft>();
        foreach (var d in drafts)
            if (d.Found.Any(f => f is not null)) d.Complete();
            else waiting.Add(d);

        var measured = drafts.Except(waiting).SelectMany(d => d.Places).ToList();
        var box = Box.Around(measured);
        if (waiting.Count > 0)
        {
            Pt start = measured.Count > 0 ? new(box.Right + 40, Math.Max(0, box.Top) + 12) : new(14, 22);
            ProposedZone = Propose(book, waiting, start, measured.Count > 0 ? Math.Max(120, box.Height) : 0);
        }
        foreach (var d in drafts) done.Add(d.ToMount());

        var all = done.SelectMany(m => m.Lugs).ToList();
        var radius = Radii(all);
        Mounts = [.. done.Select(m => m with { Lugs = [.. m.Lugs.Select(l => l with { Radius = radius[l] })] })];
        Lugs = [.. Mounts.SelectMany(m => m.Lugs)];
        foreach (var lug in Lugs) _byName.TryAdd(lug.Name, lug);
    }

    /// <summary>Puts mounts that nobody measured where their wiring suggests; returns what they take up.</summary>
    private static Box Propose(Book book, List<Draft> waiting, Pt start, double depth)
    {
        var mountOf = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < waiting.Count; i++)
            foreach (var lug in waiting[i].Lugs) mountOf.TryAdd(lug.Name, i);
        var links = new List<(int, int)>();
        void Link(string? a, string? b)
        {
            if (a is not null && b is not null && mountOf.TryGetValue(a, out var i) && mountOf.TryGetValue(b, out var j)) links.Add((i, j));
        }
        foreach (var part in book.Parts) { Link(part.LeadA, part.LeadB); Link(part.LeadA, part.LeadC); }
        foreach (var wire in book.Wires) Link(wire.From, wire.To);
        var sizes = waiting.ConvertAll(d => Box.Around(d.Template()).Grown(Gap / 2)).ConvertAll(b => (b.Width, b.Height));
        var (middles, zone) = FirstLayout.Of(sizes, links, start, depth);
        for (var i = 0; i < waiting.Count; i++) waiting[i].Put(middles[i]);
        return zone;
    }

    private sealed class Draft(string name, Mount? row, MountKind kind)
    {
        public string Name => name;
        public MountKind Kind { get; set; } = kind;
        public bool Inferred => row is null;
        public List<(int Id, string Name, int? No, Lug? Row)> Lugs { get; } = [];
        public List<Pt?> Found { get; } = [];
        public Pt[] Places { get; private set; } = [];
        public Pt Anchor { get; private set; }

        public Pt[] Template() => MountTemplate.Of(Kind, [.. Lugs.Select(l => (l.No, l.Name.EndsWith("-cap", StringComparison.OrdinalIgnoreCase)))]);

        public void Complete()
        {
            var template = Template();
            var (map, _) = BestFit.Similarity([.. Enumerable.Range(0, Lugs.Count).Where(i => Found[i] is not null).Select(i => (template[i], Found[i]!.Value))]);
            Places = [.. template.Select((t, i) => Found[i] ?? map(t))];
            Anchor = Pt.Mean(Places);
        }

        public void Put(Pt at)
        {
            var template = Template();
            var box = Box.Around(template);
            Places = [.. template.Select(t => t - box.Centre + at)];
            Anchor = at;
        }

        public PlacedMount ToMount() => new(row?.Id ?? 0, name, Kind, row?.KindAsWritten ?? MountTemplate.Spelling(Kind),
            [.. Lugs.Select((l, i) => new PlacedLug(l.Id, l.Name, name, l.No, l.Row, Places[i], Found[i] is not null))], Anchor, Found.Any(f => f is not null));
    }

    private static List<Draft> Drafts(Book book)
    {
        var order = new List<Draft>();
        var byName = new Dictionary<string, Draft>(StringComparer.OrdinalIgnoreCase);
        foreach (var mount in book.Mounts)
        {
            var draft = new Draft(mount.Name, mount, mount.Kind);
            order.Add(draft);
            byName.TryAdd(mount.Name, draft);
        }
        Draft On(string mount)
        {
            if (byName.TryGetValue(mount, out var draft)) return draft;
            draft = new Draft(mount, null, MountKind.Other);
            byName.Add(mount, draft);
            order.Add(draft);
            return draft;
        }
        var known = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var lug in book.Lugs)
        {
            var draft = On(lug.Mount);
            known.Add(lug.Name);
            draft.Lugs.Add((lug.Id, lug.Name, lug.No, lug));
            draft.Found.Add(lug is { X: { } x, Y: { } y } && Math.Abs(x) < Farthest && Math.Abs(y) < Farthest ? new Pt(x, y) : null);
        }
        foreach (var name in book.Parts.SelectMany(p => p.Leads.Select(l => l.Lug)).Concat(book.Wires.SelectMany(w => new[] { w.From, w.To })))
        {
            if (string.IsNullOrWhiteSpace(name) || !known.Add(name)) continue;
            var (mount, no) = Split(name);
            var draft = On(mount);
            draft.Lugs.Add((0, name, no, null));
            draft.Found.Add(null);
        }
        foreach (var draft in order.Where(d => d.Inferred)) draft.Kind = MountTemplate.Guess(draft.Name, [.. draft.Lugs.Select(l => l.No)], book.Parts.Named(draft.Name)?.Kind);
        return order;
    }

    /// <summary>Mount and number in a lug's name: "V3-6" is pin 6 of V3; a name without a number is a mount of its own.</summary>
    internal static (string Mount, int? No) Split(string lug)
    {
        var dash = lug.LastIndexOf('-');
        if (dash <= 0 || dash == lug.Length - 1) return (lug, null);
        return (lug[..dash], int.TryParse(lug.AsSpan(dash + 1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var no) ? no : null);
    }

    private static Dictionary<PlacedLug, double> Radii(List<PlacedLug> lugs)
    {
        var radius = new Dictionary<PlacedLug, double>(ReferenceEqualityComparer.Instance);
        var grid = new PointGrid<PlacedLug>(lugs, l => l.At);
        foreach (var lug in lugs)
        {
            var nearest = grid.Near(lug.At, 6).Where(o => !ReferenceEquals(o, lug)).Select(o => o.At.To(lug.At)).DefaultIfEmpty(6).Min();
            radius[lug] = Math.Clamp(nearest * 0.27, 0.5, 1.4);
        }
        return radius;
    }
}
