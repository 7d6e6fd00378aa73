using System.Collections.Immutable;
using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Fit;

/// <summary>Another lug nearby.</summary>
/// <param name="Lug">Its name.</param>
/// <param name="Millimetres">From middle to middle, in plan.</param>
public sealed record NearLug(string Lug, double Millimetres);

/// <summary>Distances in plan, as far as lugs are measured: where nothing is measured nothing is said.</summary>
internal sealed class Surroundings
{
    private const double OverLug = 0.5, OverBody = 1.5;    // mm of overlap that count; the plan is not more exact
    private readonly Dictionary<int, PlacedBody> _bodies = [];
    private readonly PointGrid<PlacedLug>? _grid;

    public Surroundings(MapResult map, ChassisLayout? given)
    {
        Layout = given ?? (map.Book.Lugs.Any(l => l is { X: not null, Y: not null }) ? LayoutStage.Run(map.Book) : null);
        if (Layout is null) return;
        foreach (var body in Layout.Bodies.Where(b => b.Home is Home.Loose && b.Leads.All(l => l.Lug is { Measured: true }))) _bodies.TryAdd(body.Part.Id, body);
        Measured = [.. Layout.Places.Lugs.Where(l => l.Measured)];
        _grid = new(Measured, l => l.At);
    }

    public ChassisLayout? Layout { get; }
    public ImmutableArray<PlacedLug> Measured { get; } = [];
    /// <summary>Bodies on leads of their own between measured lugs.</summary>
    public IEnumerable<PlacedBody> Loose => _bodies.Values;
    public PlacedBody? BodyOf(int part) => _bodies.GetValueOrDefault(part);
    public PlacedLug? Find(string lug) => Layout?.Places.Find(lug) is { Measured: true } found ? found : null;

    /// <summary>Measured lugs around a lug, nearest first.</summary>
    public ImmutableArray<NearLug> Around(string lug, double within) => Find(lug) is not { } here || _grid is null ? []
        : [.. _grid.Near(here.At, within).Where(o => !ReferenceEquals(o, here)).Select(o => new NearLug(o.Name, Math.Round(o.At.To(here.At), 1))).OrderBy(n => n.Millimetres).ThenBy(n => n.Lug, StringComparer.Ordinal)];

    /// <summary>Distance from a lug to a body, mm; null when either is not measured.</summary>
    public double? ToBody(string lug, Part part) => Find(lug) is { } at && BodyOf(part.Id) is { } body ? Math.Max(0, body.Slab.DistanceTo(at.At)) : null;

    /// <summary>Which part lies over which: its body over a lug of the other, or over its body and drawn above.</summary>
    /// <remarks>A plan has no heights. Of two bodies that overlap the smaller is drawn above; the bench has the last word.</remarks>
    public ImmutableArray<(int Cover, int Buried)> Covers(IReadOnlyCollection<int> parts)
    {
        PlacedBody[] bodies = [.. parts.Select(BodyOf).OfType<PlacedBody>()];
        var found = ImmutableArray.CreateBuilder<(int, int)>();
        foreach (var below in bodies)
            foreach (var above in bodies)
                if (!ReferenceEquals(above, below) && Above(above, below) && LiesOver(above, below)) found.Add((above.Part.Id, below.Part.Id));
        return found.ToImmutable();
    }

    /// <summary>Does the first body hide a lug or the body of the other?</summary>
    public static bool LiesOver(PlacedBody above, PlacedBody below)
    {
        if (above.Slab.Centre.To(below.Slab.Centre) > above.Slab.Reach + below.Slab.Reach + 60) return false;
        return above.Slab.DepthIn(below.Slab) > OverBody || below.Leads.Any(l => l.Lug is { } lug && above.Slab.DistanceTo(lug.At) < -OverLug)
            || below.Leads.Any(l => l.Points.Any(p => above.Slab.DistanceTo(p) < -OverBody));
    }

    // The order of the drawing: large bodies first, so that small ones stay seen. A total order, so that nothing covers in a circle.
    private static bool Above(PlacedBody a, PlacedBody b)
    {
        var (x, y) = (a.Slab.Length * a.Slab.Width, b.Slab.Length * b.Slab.Width);
        return x < y || x.Equals(y) && a.Part.Id > b.Part.Id;
    }
}
