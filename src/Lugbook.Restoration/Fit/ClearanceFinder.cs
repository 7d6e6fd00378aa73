using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Layout.Bodies;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Fit;

/// <summary>Finds leads near bare metal of another node, from plan geometry and solved volts.</summary>
internal sealed class ClearanceFinder
{
    // A lead can be pushed so far by a finger or a cloth: common practice, no source.
    private const double Play = 2, LugsWithin = 14;

    public const string Rule = "A bare lead keeps from bare metal of another node the creepage distance for its voltage (IEC 60664-1, pollution degree 2, material group III, from memory: 1.2 mm to 50 V, 1.4 mm to 100 V, 2.5 mm to 250 V, 4 mm to 400 V, 6.3 mm to 630 V, 10 mm to 1000 V, between them in proportion) "
        + "and 2 mm more for the play of a lead (common practice, no source); volts not known count as 400 V. The plan has no heights: what crosses in plan counts as touching. Sleeve must be made for the voltage and the heat.";

    private static readonly (double Volts, double Mm)[] Creepage = [(0, 1.2), (50, 1.2), (100, 1.4), (160, 1.6), (250, 2.5), (400, 4), (630, 6.3), (1000, 10)];

    private readonly MapResult _map;
    private readonly Surroundings _around;
    private readonly Voltages _volts;
    private readonly Dictionary<(int Part, char Letter), LeadClearance> _near = [];
    private readonly HashSet<int> _known = [];

    public ClearanceFinder(MapResult map, Bench bench, Voltages volts, IReadOnlyList<Choice> work)
    {
        (_map, _around, _volts) = (map, bench.Around, volts);
        Metal[] bare = [.. Bare()];
        foreach (var choice in work)
            if (_around.BodyOf(choice.PartId) is { } body)
            {
                _known.Add(choice.PartId);
                foreach (var lead in body.Leads)
                    if (Worst(choice, lead, bare) is { } worst) _near[(choice.PartId, lead.Letter)] = worst;
            }
    }

    /// <summary>Distance that this many volts ask for, mm.</summary>
    public static double NeedMm(double volts)
    {
        for (var k = 1; k < Creepage.Length; k++)
            if (volts <= Creepage[k].Volts) return Creepage[k - 1].Mm + (Creepage[k].Mm - Creepage[k - 1].Mm) * (volts - Creepage[k - 1].Volts) / (Creepage[k].Volts - Creepage[k - 1].Volts);
        return volts / 100;
    }

    /// <summary>Is it known where the part's leads run?</summary>
    public bool Knows(int part) => _known.Contains(part);
    public LeadClearance? Of(int part, char letter) => _near.GetValueOrDefault((part, letter));

    /// <summary>The lug that is further from common in volts; null when not known.</summary>
    public string? Higher(string a, string b) => _volts.Between(_map.NodeOf(a)?.Index, _map.Common.Node?.Index) is { } va && _volts.Between(_map.NodeOf(b)?.Index, _map.Common.Node?.Index) is { } vb ? va > vb ? a : b : null;

    public ClearanceReport Report(IReadOnlyList<string> lugs) => new()
    {
        Leads = [.. _near.Values.OrderBy(n => n.Position, NaturalOrder.Names).ThenBy(n => n.Letter)],
        Lugs = Pairs(lugs),
        Rule = Rule,
        Unknown = _around.Layout is null ? "No lug is measured, so no distance is known: sleeve every lead."
            : !_volts.Known ? "The circuit is not solved, so no voltage is known: every crossing counts as 400 V, and lugs are not compared." : null,
    };

    // A stretch of bare metal: a lug is a point with a radius.
    private sealed record Metal(string Name, int? Node, int Part, ImmutableArray<Pt> Points, double Radius, Box Box);

    private IEnumerable<Metal> Bare()
    {
        Metal Make(string name, int? node, int part, IReadOnlyList<Pt> points, double radius) => new(name, node, part, [.. points], radius, Box.Around(points).Grown(radius));
        // An unused tag is no conductor: nothing is on it that could be shorted.
        foreach (var lug in _around.Measured.Where(l => _map.NodeOf(l.Name) is not { } alone || alone.Lugs.Length > 1 || alone.Leads.Length > 0 || alone.Pins.Length > 0)) yield return Make($"lug {lug.Name}", _map.NodeOf(lug.Name)?.Index, 0, [lug.At], lug.Radius);
        foreach (var body in _around.Loose)
            foreach (var lead in body.Leads)
                if (lead.Paint is null && lead.Lug is { } on) yield return Make($"{body.Part.Name} lead {lead.Letter}", _map.NodeOf(on.Name)?.Index, body.Part.Id, lead.Points, 0.4);
        foreach (var wire in _around.Layout?.Wires ?? [])
            if (wire.Wire.Kind == WireKind.Bare && wire.Course is { } course) yield return Make($"bare wire {wire.Wire.Name}", _map.NodeOf(wire.Wire.From)?.Index, 0, course.Points(), 0.4);
    }

    private LeadClearance? Worst(Choice choice, PlacedLead lead, Metal[] bare)
    {
        if (lead.Lug is not { } own) return null;
        var node = _map.NodeOf(own.Name)?.Index;
        var points = lead.Points;
        var box = Box.Around(points).Grown(NeedMm(1500) + Play);
        LeadClearance? worst = null;
        foreach (var metal in bare)
        {
            if (metal.Part == choice.PartId || metal.Node == node && node is not null || !box.Meets(metal.Box.Grown(0.01))) continue;
            var volts = _volts.Between(node, metal.Node);
            var need = NeedMm(volts ?? 400) + Play;
            var apart = Math.Max(0, Distance(points, metal.Points) - metal.Radius);
            if (apart >= need) continue;
            if (worst is not null && (volts ?? 400, -apart).CompareTo((worst.Volts ?? 400, -worst.Millimetres)) <= 0) continue;
            var how = apart < 0.5 ? $"crosses {metal.Name}" : $"passes {metal.Name} at {Show.Number(Math.Round(apart, 1))} mm";
            worst = new(choice.Position, lead.Letter, metal.Name, Math.Round(apart, 1), volts is { } v ? Math.Round(v) : null, Math.Round(need, 1), Math.Round(Length(points), 1),
                $"Sleeve: {how}, {(volts is { } d ? $"{Show.Number(Math.Round(d))} V apart" : "volts between them not known")}.");
        }
        return worst;
    }

    private ImmutableArray<LugPair> Pairs(IReadOnlyList<string> lugs)
    {
        var found = new Dictionary<(string, string), LugPair>();
        foreach (var name in lugs)
        {
            if (_around.Find(name) is not { } lug) continue;
            foreach (var near in _around.Around(name, LugsWithin))
            {
                var other = _around.Find(near.Lug)!;
                var key = string.CompareOrdinal(name, near.Lug) < 0 ? (name, near.Lug) : (near.Lug, name);
                var node = _map.NodeOf(name)?.Index;
                if (found.ContainsKey(key) || node == _map.NodeOf(near.Lug)?.Index || _volts.Between(node, _map.NodeOf(near.Lug)?.Index) is not { } volts) continue;
                var (gap, need) = (Math.Max(0, near.Millimetres - lug.Radius - other.Radius), NeedMm(volts));
                if (gap < need)
                    found.Add(key, new(name, near.Lug, Math.Round(gap, 1), Math.Round(volts), Math.Round(need, 1),
                        $"{name} and {near.Lug}: about {Show.Number(Math.Round(gap, 1))} mm between them in plan for {Show.Number(Math.Round(volts))} V, {Show.Number(Math.Round(need, 1))} mm by the rule. As the maker built it: no tails, no spread solder, wash the flux off between them."));
            }
        }
        return [.. found.Values.OrderByDescending(p => p.NeedMm - p.GapMm).ThenBy(p => p.Lug, NaturalOrder.Names)];
    }

    private static double Length(List<Pt> points)
    {
        var sum = 0.0;
        for (var i = 1; i < points.Count; i++) sum += points[i - 1].To(points[i]);
        return sum;
    }

    private static double Distance(List<Pt> a, ImmutableArray<Pt> b)
    {
        var least = double.MaxValue;
        for (var i = 1; i < a.Count; i++)
        {
            if (b.Length == 1) least = Math.Min(least, b[0].ToSegment(a[i - 1], a[i]));
            for (var k = 1; k < b.Length; k++) least = Math.Min(least, Segments(a[i - 1], a[i], b[k - 1], b[k]));
            if (least <= 0) break;
        }
        return least;
    }

    private static double Segments(Pt a, Pt b, Pt c, Pt d)
    {
        static double Side(Pt o, Pt p, Pt q) => (p.X - o.X) * (q.Y - o.Y) - (p.Y - o.Y) * (q.X - o.X);
        if (Side(a, b, c) * Side(a, b, d) < 0 && Side(c, d, a) * Side(c, d, b) < 0) return 0;
        return Math.Min(Math.Min(a.ToSegment(c, d), b.ToSegment(c, d)), Math.Min(c.ToSegment(a, b), d.ToSegment(a, b)));
    }
}
