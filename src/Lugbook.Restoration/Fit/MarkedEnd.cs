using System.Numerics;
using Lugbook.Circuit;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Solve;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Fit;

/// <summary>To which lug the outer foil of a wound capacitor goes: to the side of lower impedance, where it screens the other.</summary>
/// <remarks>By the solved set: impedance to common at 1 kHz, the part left out. Without it by what is on the node. Common practice, no source.</remarks>
internal sealed class MarkedEnd(MapResult map, SolveResult? solved)
{
    private const double Hertz = 1000, Clearly = 1.5;

    /// <summary>As a sentence; null for what has no outer foil, or when neither side is clearly lower.</summary>
    public string? Of(Choice choice)
    {
        if (choice.Candidates is not [{ Parts: [{ Kind: NewKind.Film or NewKind.Polypropylene or NewKind.SafetyFilm }] }, ..] || choice.Lugs.Length != 2) return null;
        if (map.NodeOf(choice.Lugs[0]) is not { } a || map.NodeOf(choice.Lugs[1]) is not { } b || a == b) return null;
        if (Ohms(choice, a) is { } za && Ohms(choice, b) is { } zb)
        {
            if (Math.Max(za, zb) < Clearly * Math.Min(za, zb)) return $"Either way round: both sides show about the same impedance ({Text(za)} and {Text(zb)} at 1 kHz).";
            var (low, high, zl, zh) = za < zb ? (choice.Lugs[0], choice.Lugs[1], za, zb) : (choice.Lugs[1], choice.Lugs[0], zb, za);
            return $"If an end is marked (outer foil), it goes to {low}: {Text(zl)} at 1 kHz against {Text(zh)} at {high}.";
        }
        var (ra, rb) = (Rank(a), Rank(b));
        if (ra.Rank == rb.Rank) return null;
        var (to, from) = ra.Rank < rb.Rank ? (0, 1) : (1, 0);
        return $"If an end is marked (outer foil), it goes to {choice.Lugs[to]} ({(to == 0 ? ra : rb).Word}); {choice.Lugs[from]} is {(from == 0 ? ra : rb).Word}. By wiring alone.";
    }

    private double? Ohms(Choice choice, Node node)
    {
        if (solved is not { Direct: { } direct, Point: { } point } || map.Common.Node is not { } common || node.Index >= direct.NodeCount) return null;
        if (node.Index == common.Index) return 0;
        try
        {
            var z = Complex.Abs(SmallSignal.Seen(direct, point, node.Index, common.Index, solved.Netlist.ElementsOf(choice.Position).FirstOrDefault(), Hertz));
            return double.IsFinite(z) ? z : null;
        }
        catch (UnsolvableException)
        {
            return null;
        }
    }

    private static string Text(double ohms) => ohms < 1 ? "less than 1 Ω" : Show.Value(TwoFigures.Of(ohms), Trade.Quantities.Unit.Ohm);

    private (int Rank, string Word) Rank(Node node) =>
        node.Index == map.Common.Node?.Index || node.Index == map.Chassis.Node?.Index || node.Index == map.Earth.Node?.Index ? (0, "on common or chassis")
        : node.Leads.Any(l => l.Part.Kind == PartKind.Electrolytic && l.Part.Value >= 1e-6 * (1 - 1e-9)) ? (1, "held by a large capacitor")
        : node.Pins.Any(p => p.Has(ElectrodeKind.ControlGrid)) ? (5, "on a grid")
        : node.Pins.Any(p => p.Has(ElectrodeKind.Cathode)) ? (2, "on a cathode")
        : node.Pins.Any(p => p.Has(ElectrodeKind.Plate) || p.Has(ElectrodeKind.Screen)) ? (3, "on a plate or screen") : (4, "neither supply nor electrode");
}
