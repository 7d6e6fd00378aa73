using Lugbook.Restoration.Compare;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>The line: blades shorted, chassis or earth joined to it, and what alone stands between.</summary>
internal static class LineRule
{
    /// <summary>Below this a resistor from the line passes over 1 mA at 117 V.</summary>
    private const double IsolatingOhms = 100_000;

    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        var blades = c.Book.Lugs.Where(l => c.Chart.MountOf(l.Name)?.Kind == MountKind.LineCord && !ChassisFinder.IsEarth(l)).ToArray();
        for (var i = 0; i < blades.Length; i++)
            for (var j = i + 1; j < blades.Length; j++)
            {
                var (a, b) = (c.Chart.NodeByLug[blades[i].Name], c.Chart.NodeByLug[blades[j].Name]);
                if (Contacts(c, a).Contains(b))
                    yield return new("line-shorted", Weight.Contradiction, blades[j].Name,
                        $"{blades[i].Name} and {blades[j].Name} are joined by wires{(a == b ? "" : ", switches and fuses")} alone: the line is shorted.", "Do not plug in. Look which wire belongs elsewhere.");
            }
        if (c.Map.Earth.Node is { } earth && blades.FirstOrDefault(l => c.Chart.NodeByLug[l.Name] == earth.Index) is { } joined)
            yield return new("earth-on-line", Weight.Contradiction, joined.Name, $"The earth conductor and the blade {joined.Name} are on one node.", "Do not plug in. Look which conductor of the cord is on the wrong lug.");

        if (c.Chassis is { } chassis && c.Map.LineWays.FirstOrDefault(w => w.Node.Index == chassis) is { } way)
        {
            var metal = c.Chart.LugsOf[chassis].FirstOrDefault(l => c.Chart.MountOf(l)?.Kind == MountKind.Chassis) ?? c.Chart.BestLug(chassis);
            var isolated = IsolatingTransformer(c);
            yield return isolated is not null
                ? new("chassis-on-line", Weight.Contradiction, metal,
                    $"The chassis is joined to the line ({way.Evidence}), though {isolated} isolates the set from it.", "Do not plug in. Look which wire or lead on the primary side touches the chassis.")
                : new("chassis-on-line", way.Path == LinePath.Blade || c.Common == chassis ? Weight.Remark : Weight.Doubt, metal,
                    $"The chassis is joined to the line ({way.Evidence}): it can be live whichever way the plug goes in, switch on or off.",
                    "Work on it only with an isolation transformer, and see that knobs, screws and aerial are insulated; if the sheet shows an isolated chassis, look for the wire that joins it.");
        }
        foreach (var isolation in c.Map.Isolations.Where(i => i.Part.Kind == PartKind.Resistor && i.Part.Value < IsolatingOhms))
            yield return new("isolation-too-low", Weight.Doubt, isolation.Part.Name,
                $"{isolation.Part.Name} ({Figures.Of(isolation.Part)}) joins the line ({isolation.Line.Name}) to {(isolation.Far.Index == c.Chassis ? "the chassis" : "earth")}: it lets more than a milliampere through a hand.",
                "Read its colours again and look on which lugs it is; as a leak to the chassis 220 kΩ and more is usual.");
        foreach (var isolation in c.Map.Isolations)
            yield return new("isolation-part", Weight.Remark, isolation.Part.Name,
                $"{isolation.Part.Name} stands between the line ({isolation.Line.Name}) and {(isolation.Far.Index == c.Chassis ? "the chassis" : "earth")}.",
                isolation.Part.Kind.IsCapacitor() ? "Its replacement must be a safety capacitor of class Y." : "Its replacement must bear the line's peaks: watch its voltage rating.");
    }

    /// <summary>Nodes joined to this one by wires, closed switches and sound fuses.</summary>
    private static HashSet<int> Contacts(RuleContext c, int start)
    {
        var reached = new HashSet<int> { start };
        var queue = new Queue<int>(reached);
        while (queue.TryDequeue(out var node))
            foreach (var step in c.Paths.From(node))
                if (step.Part.Kind is PartKind.Switch or PartKind.Fuse && reached.Add(step.To)) queue.Enqueue(step.To);
        return reached;
    }

    /// <summary>A body with one winding on the line at both ends and another that shares no node with it.</summary>
    private static string? IsolatingTransformer(RuleContext c)
    {
        var blades = c.Map.LineWays.Where(w => w.Path is LinePath.Blade or LinePath.Conductor).Select(w => w.Node.Index).ToHashSet();
        var windings = c.Book.Parts.Where(p => p.Kind == PartKind.Winding && p.Group is not null).Select(p => (Part: p, Ends: c.Chart.Ends(p))).Where(w => w.Ends is not null);
        foreach (var body in windings.GroupBy(w => w.Part.Group!, StringComparer.OrdinalIgnoreCase))
        {
            var primary = body.FirstOrDefault(w => blades.Contains(w.Ends!.Value.A) && blades.Contains(w.Ends.Value.B) && w.Ends.Value.A != w.Ends.Value.B
                && !c.Ground.Contains(w.Ends.Value.A) | !c.Ground.Contains(w.Ends.Value.B));
            if (primary.Part is null) continue;
            var live = new[] { primary.Ends!.Value.A, primary.Ends.Value.B }.Where(n => !c.Ground.Contains(n)).ToHashSet();
            var plates = CommonFinder.RectifierPlates(c.Chart);
            if (body.Any(w => w.Part != primary.Part && !live.Contains(w.Ends!.Value.A) && !live.Contains(w.Ends.Value.B) && (plates.Contains(w.Ends.Value.A) || plates.Contains(w.Ends.Value.B))))
                return body.Key;
        }
        return null;
    }
}
