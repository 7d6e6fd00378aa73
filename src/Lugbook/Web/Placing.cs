using System.Globalization;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Trade.Parts;

namespace Lugbook.Web;

/// <summary>A place on the chassis: the middle of a mount or of a body.</summary>
/// <param name="At">Chassis mm.</param>
/// <param name="Turn">Degrees clockwise as seen from beneath.</param>
internal readonly record struct Stand(Pt At, double Turn)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{At.X:0.#}, {At.Y:0.#} mm{(Turn == 0 ? "" : $", turned {Turn:0.#}°")}");
}

/// <summary>Edits that lay things: each a pure function from a book and its layout to a book.</summary>
internal static class Placing
{
    /// <summary>Where a mount stands: a socket by its centre, anything else by the mean of its lugs; both turn with it.</summary>
    public static Stand Of(MountFigure figure) => new(figure.Mount.Lugs.Length == 0 || figure.Mount.Kind.IsSocket() ? figure.Centre : Pt.Mean([.. figure.Mount.Lugs.Select(l => l.At)]), figure.Mount.Turn);

    /// <summary>Where a body lies.</summary>
    public static Stand Of(PlacedBody body) => new(body.Slab.Centre, Degrees(body.Slab.Axis));

    /// <summary>May this body be laid elsewhere? One that belongs to a mount or to a shared body goes with that.</summary>
    public static bool IsFree(PlacedBody body) => body.Home is Home.Loose or Home.Tray;

    /// <summary>Moves a mount with its lugs, and with bodies laid by hand whose every lead is on it.</summary>
    /// <remarks>Where nothing at all was measured, the proposed places of all other mounts are kept too, so that the rest of the drawing stays as it is.</remarks>
    /// <returns>The book as it was when there is no such mount.</returns>
    public static Book Mount(Book book, ChassisLayout layout, string name, Stand to)
    {
        if (layout.Mounts.FirstOrDefault(m => Same(m.Mount.Name, name)) is not { } figure) return book;
        if (!layout.Places.AnyMeasured) book = KeepAll(book, layout);
        var from = Of(figure);
        var (turn, own) = (to.Turn - from.Turn, figure.Mount.Lugs.Select(l => l.Name).ToHashSet(StringComparer.OrdinalIgnoreCase));
        Pt Moved(Pt p) => to.At + Turned(p - from.At, turn);
        book = WithLugs(book, figure.Mount, Moved);
        return book with
        {
            Parts = Table<Part>.Of(book.Parts.Select(p => p is { BodyX: { } x, BodyY: { } y } && p.Leads.Length > 0 && p.Leads.All(l => own.Contains(l.Lug))
                ? p with { BodyX = Round(Moved(new(x, y)).X), BodyY = Round(Moved(new(x, y)).Y), BodyTurn = p.BodyTurn is { } was ? Whole(was + turn) : null } : p)),
        };
    }

    /// <summary>Keeps every proposed place as if it were measured.</summary>
    public static Book KeepAll(Book book, ChassisLayout layout)
    {
        foreach (var mount in layout.Places.Mounts.Where(m => m.Lugs.Any(l => !l.Measured))) book = WithLugs(book, mount, p => p, onlyUnmeasured: true);
        return book;
    }

    /// <summary>Lays a part's body by hand.</summary>
    public static Book Body(Book book, string part, Stand to) => book.Parts.Named(part) is not { } row ? book
        : book with { Parts = book.Parts.Replace(row with { BodyX = Round(to.At.X), BodyY = Round(to.At.Y), BodyTurn = Whole(to.Turn) }) };

    /// <summary>Leaves a part's body to the program again.</summary>
    public static Book BodyBack(Book book, string part) => book.Parts.Named(part) is not { } row ? book
        : book with { Parts = book.Parts.Replace(row with { BodyX = null, BodyY = null, BodyTurn = null }) };

    /// <summary>Adds a mount from its template. Lugs of its names that are there already get their place.</summary>
    public static Book Add(Book book, MountTemplate template, string name, Stand at)
    {
        var (mount, lugs) = template.Place(name, at.At.X, at.At.Y, at.Turn);
        var rows = book.Lugs.ToList();
        foreach (var lug in lugs)
            if (rows.FindIndex(l => Same(l.Name, lug.Name)) is var i and >= 0) rows[i] = rows[i] with { Mount = name, No = rows[i].No ?? lug.No, X = lug.X, Y = lug.Y };
            else rows.Add(lug);
        return book with { Mounts = book.Mounts.Add(mount), Lugs = Table<Lug>.Of(rows) };
    }

    /// <summary>Why a new mount cannot bear this name; null when it can.</summary>
    public static string? Refuses(Book book, string? name)
    {
        if (string.IsNullOrWhiteSpace(name)) return "The mount needs a name: a letter for a strip, V3 for a socket.";
        if (name.Length > 20 || !name.All(c => char.IsLetterOrDigit(c) || c is '+' or '_' or '.')) return $"'{name}' is no name for a mount: write letters and figures, such as A or V3.";
        return book.Mounts.Named(name) is { } there ? $"There is a mount {there.Name} already ({there.KindAsWritten}). Give the new one another name." : null;
    }

    /// <summary>What stands against taking a mount out: leads, wires and all else that names its lugs. Bonds of its feet go with it.</summary>
    public static IReadOnlyList<string> Holds(Book book, string mount)
    {
        var lugs = LugsOf(book, mount);
        List<string> holds = [];
        foreach (var part in book.Parts)
            if (part.Leads.Where(l => lugs.Contains(l.Lug)).ToArray() is { Length: > 0 } leads)
                holds.Add($"{part.Name} ({string.Join(", ", leads.Select(l => $"lead {l.Letter} on {l.Lug}"))})");
            else if (part.Kind == PartKind.Valve && Same(part.Name, mount)) holds.Add($"the valve {part.Name}, which plugs into it");
        foreach (var wire in book.Wires.Where(w => w.Kind != WireKind.Bond && (lugs.Contains(w.From) || lugs.Contains(w.To)))) holds.Add($"wire {wire.Name} ({wire.From} to {wire.To})");
        foreach (var given in book.Declared.Where(d => lugs.Contains(d.Name))) holds.Add($"volts given at {given.Name}");
        foreach (var reading in book.Readings.Where(r => lugs.Contains(r.Name))) holds.Add($"a reading at {reading.Name}");
        if (book.Facts.CommonLug is { } common && lugs.Contains(common)) holds.Add($"common, which is {common}");
        return holds;
    }

    /// <summary>Takes a mount out with its lugs and bonds, unless something holds it.</summary>
    public static Book Remove(Book book, string mount)
    {
        if (book.Mounts.Named(mount) is not { } row || Holds(book, mount).Count > 0) return book;
        var lugs = LugsOf(book, mount);
        return book with
        {
            Mounts = book.Mounts.Remove(row.Id),
            Lugs = Table<Lug>.Of(book.Lugs.Where(l => !lugs.Contains(l.Name))),
            Wires = Table<Wire>.Of(book.Wires.Where(w => !(w.Kind == WireKind.Bond && (lugs.Contains(w.From) || lugs.Contains(w.To))))),
        };
    }

    private static HashSet<string> LugsOf(Book book, string mount) => book.Lugs.Where(l => Same(l.Mount, mount)).Select(l => l.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);

    private static Book WithLugs(Book book, PlacedMount mount, Func<Pt, Pt> to, bool onlyUnmeasured = false)
    {
        var at = mount.Lugs.Where(l => !(onlyUnmeasured && l.Measured)).ToDictionary(l => l.Name, l => to(l.At), StringComparer.OrdinalIgnoreCase);
        var known = book.Lugs.Select(l => l.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        // Lugs that only leads name become rows, on a mount of the kind that was supposed.
        var entered = mount.Lugs.Where(l => !known.Contains(l.Name)).Select(l => new Lug { Name = l.Name, Mount = mount.Name, No = l.No, X = Round(at[l.Name].X), Y = Round(at[l.Name].Y) });
        return book with
        {
            Mounts = book.Mounts.Named(mount.Name) is not null ? book.Mounts : book.Mounts.Add(new() { Name = mount.Name, KindAsWritten = mount.KindAsWritten.Replace(", supposed", "", StringComparison.Ordinal) }),
            Lugs = Table<Lug>.Of([.. book.Lugs.Select(l => at.TryGetValue(l.Name, out var p) && Same(l.Mount, mount.Name) ? l with { X = Round(p.X), Y = Round(p.Y) } : l), .. entered]),
        };
    }

    private static Pt Turned(Pt p, double degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        return new(p.X * cos + p.Y * sin, -p.X * sin + p.Y * cos);
    }

    private static double Degrees(Pt axis) => Whole(-Math.Atan2(axis.Y, axis.X) * 180 / Math.PI);
    private static double Whole(double degrees) => Math.Round((degrees % 360 + 360) % 360, 1) % 360;
    // A tenth of a millimetre is finer than anyone measures a tag.
    private static double Round(double mm) => Math.Round(mm, 1, MidpointRounding.AwayFromZero) + 0.0;
    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
