using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Prove;

/// <summary>What is looked at before power: polarity, what closes a circuit, common and chassis. Each with what was computed.</summary>
internal static class LookList
{
    // Above this nothing closes a circuit: leakage does (common practice, no source).
    private const double ClosedOhms = 1e6, LeastVolts = 0.05;

    public static ImmutableArray<ProofLook> Of(SolveResult solved, Board board)
    {
        var looks = ImmutableArray.CreateBuilder<ProofLook>();
        var map = solved.Netlist.Map;
        foreach (var part in map.Book.Parts.Where(p => p.Kind == PartKind.Electrolytic || p.Kind.IsRectifier() || p.Kind is PartKind.SeleniumDiode or PartKind.CrystalDiode))
            looks.Add(Polarity(solved, part));
        foreach (var part in map.Book.Parts.Where(p => p.Kind is PartKind.Speaker or PartKind.Lamp)) looks.Add(Closed(solved, board, part));
        foreach (var winding in Loose(solved)) looks.Add(winding);
        Common(map, looks);
        return looks.ToImmutable();
    }

    private static ProofLook Polarity(SolveResult solved, Part part)
    {
        var rectifier = part.Kind != PartKind.Electrolytic;
        var end = rectifier ? "cathode (+)" : "plus";
        if (part.PlusLug is not { } plus || part.MinusLug is not { } minus)
        {
            if (Higher(solved, part.LeadA, part.LeadB) is not { } higher || rectifier) return new(part.Name, $"the {end} of {part.Name}: the book does not say on which lug it is", "No polarity is entered.", false);
            return new(part.Name, $"the plus of {part.Name} is on {higher.Lug}", $"{higher.Lug} stands {Volts(higher.Volts)} above the other end; the book does not say where the plus is.", false);
        }
        var look = $"the {end} of {part.Name} is on {plus}, as marked on the body";
        if (Average(solved, plus) is not { } high || Average(solved, minus) is not { } low) return new(part.Name, look, "The set is not solved, so no volts are known here.", false);
        var volts = high - low;
        if (Math.Abs(volts) < LeastVolts) return new(part.Name, look, $"Solved, both ends stand within {Volts(LeastVolts)}: polarity by the mark alone.", false);
        var right = volts > 0;
        // A dry rectifier blocks for most of the cycle: its cathode stands above its anode on average.
        return new(part.Name, look, $"Solved, {plus} stands {Volts(Math.Abs(volts))} {(right ? "above" : "below")} {minus}{(rectifier ? " on average" : "")}{(right ? "." : rectifier ? ": it would pass current all the time or not at all." : ": so it would be the wrong way round. Do not power; look at the book and the part.")}", !right);
    }

    private static (string Lug, double Volts)? Higher(SolveResult solved, string? a, string? b) =>
        a is null || b is null || Average(solved, a) is not { } x || Average(solved, b) is not { } y || Math.Abs(x - y) < LeastVolts ? null : x > y ? (a, x - y) : (b, y - x);

    private static double? Average(SolveResult solved, string lug) => solved.Netlist.Map.NodeOf(lug) is { } node ? solved.Cycle?.Nodes[node.Index].Average ?? solved.Point?.Volts[node.Index] : null;

    /// <summary>Without the part: does the rest join its two ends?</summary>
    private static ProofLook Closed(SolveResult solved, Board board, Part part)
    {
        var what = part.Kind == PartKind.Speaker ? "loudspeaker" : "lamp";
        var look = $"the {what} {part.Name} is connected{(part.Kind == PartKind.Speaker ? ": an unloaded output transformer can arc" : " and whole")}";
        if (solved.Netlist.Map.NodeOf(part.LeadA)?.Index is not { } a || solved.Netlist.Map.NodeOf(part.LeadB)?.Index is not { } b || a == b)
            return new(part.Name, look, "The book does not have both its leads on lugs of their own, so nothing can be said of its circuit.", false);
        var own = solved.Netlist.ElementsOf(part.Name).ToHashSet(StringComparer.Ordinal);
        var rest = new Network(board.Cold.NodeNames, board.Cold.Reference, board.Cold.Elements.Where(e => !own.Contains(e.Name)));
        var ohms = Rest(rest, a, b);
        return ohms < ClosedOhms
            ? new(part.Name, look, $"It closes a circuit: without it the rest shows {Say.Ohms(ohms)} from {part.LeadA} to {part.LeadB}.", false)
            : new(part.Name, look, $"It closes no circuit when cold: without it nothing below {Say.Ohms(ClosedOhms)} joins {part.LeadA} and {part.LeadB}. A switch that is off, or a lead that is not in the book.", false);
    }

    private static double Rest(Network rest, int a, int b)
    {
        try { return Ohms.Between(rest, a, b).Ohms; }
        catch (UnsolvableException) { return double.PositiveInfinity; }
    }

    /// <summary>Windings that nothing stands across.</summary>
    private static IEnumerable<ProofLook> Loose(SolveResult solved)
    {
        var (map, elements) = (solved.Netlist.Map, solved.Netlist.Network!.Elements);
        foreach (var part in map.Book.Parts.Where(p => p.Kind == PartKind.Winding && p.LeadA is not null && p.LeadB is not null))
        {
            if (map.NodeOf(part.LeadA) is not { } a || map.NodeOf(part.LeadB) is not { } b || a.Index == b.Index) continue;
            bool Alone(Node n) => n.Index != solved.Netlist.Network.Reference && n.Index != map.Chassis.Node?.Index && n.Pins.IsEmpty && n.Leads.All(l => l.Part.Kind == PartKind.Winding) && n.Leads.Length < 2;
            if (Alone(a) || Alone(b)) yield return new(part.Name, $"what belongs on the winding {part.Name} ({part.LeadA}, {part.LeadB}): a loudspeaker or its plug, or an end left free on purpose", "Nothing else of the book is on one of its ends, so it closes no circuit.", false);
        }
    }

    private static void Common(MapResult map, ImmutableArray<ProofLook>.Builder looks)
    {
        if (map.Common.Node is not { } common) return;
        var chassis = map.Chassis.Node;
        if (chassis is not null && chassis.Index != common.Index)
            looks.Add(new(ShortFinder.LugOf(map, common.Index) ?? common.Name, $"nothing joins common ({common.Name}) to the chassis: no foot used as an earth, no mounting washer left out", "Common and chassis are two nodes in this set; the readings above tell a short between them where one can be told.", false));
        foreach (var (node, name) in new[] { (common, "Common"), (chassis, "The chassis") }.DistinctBy(n => n.Item1?.Index))
            if (map.LineWays.FirstOrDefault(w => w.Node.Index == node?.Index && w.Path != LinePath.Rectifier) is { } way)
                looks.Add(new(node!.Name, $"{name.ToLowerInvariant()} is joined to the line: knobs, screws, back and washers keep hands off", $"{name} ({node.Name}) is on the line: {way.Evidence.TrimEnd('.')}.", false));
    }

    private static string Volts(double volts) => volts >= 10 ? volts.ToString("0", CultureInfo.InvariantCulture) + " V" : volts.ToString("0.##", CultureInfo.InvariantCulture) + " V";
}
