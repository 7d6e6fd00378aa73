using System.Globalization;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Places that cannot be: two lugs in one spot, mounts in each other, spans that no part has.</summary>
internal static class GeometryRule
{
    private const double SameSpot = 1;
    private const double NearMounts = 6;
    private const double LongestSpan = 120;
    private const double ShortestSpan = 4;

    public static IEnumerable<Contradiction> Find(RuleContext c) => Unplaced(c).Concat(Lugs(c)).Concat(Spans(c));

    private static IEnumerable<Contradiction> Unplaced(RuleContext c)
    {
        foreach (var mount in c.Book.Lugs.GroupBy(l => l.Mount, StringComparer.OrdinalIgnoreCase))
        {
            if (!mount.Any(IsPlaced)) continue;
            foreach (var lug in mount.Where(l => !IsPlaced(l) && !ValvePins.IsCap(l)))
                yield return new("lug-without-place", Weight.Remark, lug.Name, $"{lug.Name} has no position, though other lugs of {lug.Mount} have.", "Measure it, or use the mount's template.");
        }
    }

    private static IEnumerable<Contradiction> Lugs(RuleContext c)
    {
        var placed = c.Book.Lugs.Where(IsPlaced).OrderBy(l => l.X).ToArray();
        var near = new Dictionary<(string, string), (Lug A, Lug B, double Millimetres)>();
        for (var i = 0; i < placed.Length; i++)
            for (var j = i + 1; j < placed.Length && placed[j].X - placed[i].X < NearMounts; j++)
            {
                var (a, b) = (placed[i], placed[j]);
                var distance = Distance(a, b);
                if (RuleContext.Same(a.Name, b.Name) || distance >= NearMounts) continue;
                if (RuleContext.Same(a.Mount, b.Mount))
                {
                    if (distance < SameSpot)
                        yield return new("lugs-in-one-place", Weight.Contradiction, b.Name, $"{a.Name} and {b.Name} are {Text(distance)} mm apart: two lugs of {a.Mount} in one place.", "Measure both again.");
                    continue;
                }
                if (IsSpread(c, a) || IsSpread(c, b)) continue;
                var key = WiresRule.Ends(a.Mount, b.Mount);
                if (!near.TryGetValue(key, out var known) || distance < known.Millimetres) near[key] = (a, b, distance);
            }
        foreach (var (_, (a, b, distance)) in near)
            yield return new("mounts-too-near", Weight.Doubt, b.Name, $"{a.Name} of {a.Mount} and {b.Name} of {b.Mount} are {Text(distance)} mm apart.", "Measure both mounts again; if they are so near, mind bridges of solder there.");
    }

    private static IEnumerable<Contradiction> Spans(RuleContext c)
    {
        foreach (var part in c.Book.Parts.Where(p => (p.Kind == PartKind.Resistor || p.Kind.IsFixedCapacitor()) && (p.Group is null || RuleContext.Same(p.Group, p.Name))))
        {
            if (c.Book.Lugs.Named(part.LeadA) is not { } a || c.Book.Lugs.Named(part.LeadB) is not { } b || !IsPlaced(a) || !IsPlaced(b) || RuleContext.Same(a.Name, b.Name)) continue;
            if (IsSpread(c, a) || IsSpread(c, b)) continue;
            var span = Distance(a, b);
            if (span > LongestSpan)
                yield return new("span-too-long", Weight.Doubt, part.Name, $"{part.Name} would span {Text(span)} mm from {a.Name} to {b.Name}: longer than a loose part on its own leads.", "Look on which lugs its leads are.");
            else if (span < ShortestSpan)
                yield return new("span-too-short", Weight.Doubt, part.Name, $"{part.Name} would span {Text(span)} mm from {a.Name} to {b.Name}: shorter than any body.", "Measure the lugs again, or look on which lugs its leads are.");
        }
    }

    /// <summary>The chassis is everywhere, and flying leads, caps and things above the chassis have no firm place.</summary>
    private static bool IsSpread(RuleContext c, Lug lug) => ValvePins.IsCap(lug) || c.Chart.MountOf(lug.Name)?.Kind
        is MountKind.Chassis or MountKind.Speaker or MountKind.LineCord or MountKind.LoopPanel or MountKind.Yoke or MountKind.DuodecalSocket;

    private static bool IsPlaced(Lug lug) => lug is { X: not null, Y: not null };
    private static double Distance(Lug a, Lug b) => Math.Sqrt(Math.Pow(a.X!.Value - b.X!.Value, 2) + Math.Pow(a.Y!.Value - b.Y!.Value, 2));
    private static string Text(double millimetres) => millimetres.ToString("0.#", CultureInfo.InvariantCulture);
}
