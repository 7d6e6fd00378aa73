using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Layout.Mounts;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout;

/// <summary>Where does everything lie? Mounts in their shapes, bodies on their leads, wires along the chassis: plan view, to scale.</summary>
public static class LayoutStage
{
    /// <summary>Pure: the same book, the same places. Never throws on a book, however little of it is known.</summary>
    /// <param name="book">The book.</param>
    public static ChassisLayout Run(Book book)
    {
        var places = new Places(book);
        var edges = EdgesOf(places);
        var symbols = Symbols(book);
        ImmutableArray<MountFigure> figures = [.. places.Mounts.Select(m => MountFigures.Of(m, new(edges, symbols)))];
        var figureByName = new Dictionary<string, MountFigure>(StringComparer.OrdinalIgnoreCase);
        foreach (var f in figures) figureByName.TryAdd(f.Mount.Name, f);

        var bodies = new PlacedBody?[book.Parts.Count];
        var loose = new List<(int Index, BodyPlacer.Request Request)>();
        var groups = new Dictionary<string, List<(int Index, BodyPlacer.Request Request)>>(StringComparer.OrdinalIgnoreCase);
        var tray = new List<int>();
        var pairs = new Dictionary<(string, string), int>();
        for (var i = 0; i < book.Parts.Count; i++)
        {
            var part = book.Parts[i];
            ImmutableArray<(char, PlacedLug)> leads = [.. part.Leads.Select(l => (l.Letter, Lug: places.Find(l.Lug))).Where(l => l.Lug is not null).Select(l => (l.Letter, l.Lug!))];
            if (InMount.Of(part, leads, figureByName, pairs) is { } home) bodies[i] = home;
            else if (leads.Length == 0) tray.Add(i);
            else if (part.Group is { Length: > 0 } group && !figureByName.ContainsKey(group))
            {
                if (!groups.TryGetValue(group, out var list)) groups[group] = list = [];
                list.Add((i, new(part, leads)));
            }
            else loose.Add((i, new(part, leads)));
        }
        // A group of one is a part like any other.
        foreach (var lone in groups.Where(g => g.Value.Count == 1).ToList())
        {
            loose.Add(lone.Value[0]);
            groups.Remove(lone.Key);
        }
        loose.Sort((a, b) => a.Index.CompareTo(b.Index));

        List<Slab> mountSlabs = [.. figures.Where(f => IsTall(f.Mount.Kind)).Select(f => new Slab(f.Extent.Centre, new(1, 0), f.Extent.Width, f.Extent.Height))];
        List<Slab> everyMount = [.. figures.Select(f => new Slab(f.Extent.Centre, new(1, 0), f.Extent.Width, f.Extent.Height))];
        // What is written in the middle of a socket is better read than covered.
        var faces = figures.Where(f => f.Mount.Kind.IsSocket() && f.Face.Width > 0).Select(f => new Slab(f.Centre, new(1, 0), f.Face.Width, 3.4));
        var room = edges?.With(places.ProposedZone ?? edges.Value) ?? places.ProposedZone;
        var shared = new List<SharedBody>();
        void Share(bool iron)
        {
            foreach (var (name, members) in groups.Where(g => g.Value.TrueForAll(m => m.Request.Part.Kind == PartKind.Winding) == iron))
            {
                var body = SharedBody.Place(name, members.ConvertAll(m => m.Request), places.Lugs,
                    [.. everyMount, .. shared.Select(s => s.Slab), .. bodies.OfType<PlacedBody>().Where(b => b.Home == Home.Loose).Select(b => b.Slab)], room);
                shared.Add(body);
                for (var k = 0; k < members.Count; k++) bodies[members[k].Index] = body.Members[k];
            }
        }
        Share(iron: false);   // small blocks on short leads: first; transformers on long ones: where room is left
        var placed = new BodyPlacer(places.Lugs, [.. mountSlabs.Select(s => (s, 0.7)), .. shared.Select(s => (s.Slab, 2.5)), .. faces.Select(s => (s, 0.7))], room).Place(loose.ConvertAll(l => l.Request));
        for (var k = 0; k < loose.Count; k++) bodies[loose[k].Index] = placed[k];
        Share(iron: true);

        var taken = Box.Around([.. figures.SelectMany(f => f.Extent.Corners), .. bodies.OfType<PlacedBody>().SelectMany(b => b.Slab.Corners), .. shared.SelectMany(s => s.Slab.Corners)]);
        var trayBox = LayTray(book, tray, bodies, figures.Length + loose.Count > 0 ? new(taken.Right + 26, Math.Max(taken.Top, 6)) : new(10, 10), Math.Max(90, taken.Height));

        var obstacles = bodies.OfType<PlacedBody>().Where(b => b.Home == Home.Loose).Select(b => b.Slab).Concat(shared.Select(s => s.Slab)).ToList();
        var wires = new WireRouter(places.Lugs, obstacles).Route([.. book.Wires.Select(w =>
        {
            PlacedLug? from = places.Find(w.From), to = places.Find(w.To);
            return (w, from, to, from is not null && figureByName.TryGetValue(from.Mount, out var m) && m.Mount.Kind == MountKind.Chassis);
        })]);
        return new()
        {
            Places = places, Mounts = figures, Bodies = [.. bodies.Select(b => b!)], Shared = [.. shared], Wires = wires, Edges = edges, Tray = trayBox,
        };
    }

    /// <summary>Mounts that stand up beneath the chassis so that no body lies on them.</summary>
    private static bool IsTall(MountKind kind) => kind is MountKind.PowerResistor or MountKind.FuseHolder or MountKind.Control or MountKind.Transformer
        or MountKind.SeleniumStack or MountKind.Flyback or MountKind.Jack or MountKind.LampHolder or MountKind.SealedUnit or MountKind.Speaker or MountKind.LineCord;

    /// <summary>Lies usually outside the chassis: in the cabinet, on the picture tube's neck, on a cord.</summary>
    private static bool IsOutside(MountKind kind) => kind is MountKind.Speaker or MountKind.Yoke or MountKind.DuodecalSocket or MountKind.LoopPanel or MountKind.LineCord;

    private static Box? EdgesOf(Places places)
    {
        var inside = places.Mounts.Where(m => m.Measured && !IsOutside(m.Kind)).SelectMany(m => m.Lugs).Select(l => l.At).ToArray();
        if (inside.Length == 0) inside = [.. places.Mounts.Where(m => m.Measured).SelectMany(m => m.Lugs).Select(l => l.At)];
        if (inside.Length == 0) return null;
        var box = Box.Around(inside);
        // Front edge is y = 0 by definition, unless lugs lie in front of it. The other sides stand off the outermost lugs.
        return new(box.Left - 12, box.Top < -1 ? box.Top - 8 : 0, box.Right + 12, Math.Max(box.Bottom + 12, 30));
    }

    private static ImmutableDictionary<string, string> Symbols(Book book)
    {
        var symbols = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var lug in book.Lugs)
            if (CanFigure.SymbolIn(lug.Function) is { } symbol) symbols[lug.Name] = symbol;
        foreach (var part in book.Parts)
            if (part.Kind == PartKind.Electrolytic && CanFigure.SymbolIn(part.Code) is { } symbol && (part.PlusLug ?? part.LeadA) is { } lug) symbols[lug] = symbol;
        return symbols.ToImmutable();
    }

    /// <summary>Parts on no lug lie in rows, in the order of the book.</summary>
    private static Box? LayTray(Book book, List<int> indices, PlacedBody?[] bodies, Pt start, double depth)
    {
        if (indices.Count == 0) return null;
        double x = start.X, y = start.Y, column = 0;
        var right = x;
        var columns = Math.Max(1, Math.Ceiling(Math.Sqrt(indices.Count / 3.0)));
        var limit = Math.Max(depth, indices.Count / columns * 16);
        foreach (var i in indices)
        {
            var form = BodyForm.Of(book.Parts[i]);
            if (book.Parts[i].Kind == PartKind.Valve) form = new(Look.Round, 18, 18, 1);
            if (y > start.Y && y + form.Width > start.Y + limit) { y = start.Y; x += column + 12; column = 0; }
            var slab = form.At(new(x + form.Length / 2, 2 * start.Y + limit - y - form.Width / 2), new(1, 0));
            bodies[i] = new(book.Parts[i], Home.Tray, form, slab, []);
            y += form.Width + 9;
            column = Math.Max(column, Math.Max(form.Length, 22));
            right = Math.Max(right, x + Math.Max(form.Length, 22));
        }
        var lowest = indices.Min(i => bodies[i]!.Slab.Centre.Y - bodies[i]!.Slab.Width / 2);
        return new Box(start.X, Math.Min(lowest, start.Y + limit), right, start.Y + limit + 5).Grown(6);
    }
}
