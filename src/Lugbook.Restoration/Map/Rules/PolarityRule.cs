using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Electrolytics and rectifiers that are the wrong way round for sure.</summary>
/// <remarks>
/// For sure means by topology alone. Electrolytic: its + is on common and its − on a node that a supply feeds, or on a cathode that returns to common
/// through a resistor. Bias sections with + on common, and + on the chassis
/// of a detector, stay unreported. Rectifier: its anode is on a reservoir's +, its cathode is not; or its cathode is on common and its anode on an electrolytic's +.
/// </remarks>
internal static class PolarityRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        if (c.Common is not { } common) yield break;
        foreach (var part in c.Book.Parts.Where(p => p.Kind == PartKind.Electrolytic && !IsBipolar(p)))
        {
            if (part.PlusLead is null && c.Chart.Ends(part) is not null)
                yield return new("polarity-missing", Weight.Remark, part.Name, $"Which lead of {part.Name} is + is not entered.", "Enter 'a' or 'b' from the marking or the can's symbol.");
            if (c.Chart.NodeOf(part.PlusLug) is not { } plus || c.Chart.NodeOf(part.MinusLug) is not { } minus || plus == minus) continue;
            if (plus == common && Positive(c, minus) is { } why)
                yield return new("electrolytic-reversed", Weight.Contradiction, part.Name,
                    $"{part.Name} is reversed: its + ({part.PlusLug}) is on {c.CommonWords} and its − ({part.MinusLug}) on {why}.",
                    "Look at the marking on the body before power; if only the book is wrong, correct the + lead. A reversed electrolytic can burst.");
        }
        foreach (var part in c.Book.Parts.Where(p => p.Kind is PartKind.SeleniumRectifier or PartKind.SiliconRectifier))
        {
            if (part.PlusLead is null && c.Chart.Ends(part) is not null)
                yield return new("polarity-missing", Weight.Remark, part.Name, $"Which lead of {part.Name} is the cathode is not entered.", "Enter 'a' or 'b': the end marked +, red or with a band.");
            if (c.Chart.NodeOf(part.PlusLug) is not { } cathode || c.Chart.NodeOf(part.MinusLug) is not { } anode || cathode == anode) continue;
            if (Reservoir(c, anode, common) is { } filled && Reservoir(c, cathode, common) is null)
                yield return Reversed(part, $"its anode ({part.MinusLug}) is on the + of {filled.Name}, so it can only empty it");
            else if (cathode == common && c.Chart.LeadsOf[anode].FirstOrDefault(l => l.Part.Kind == PartKind.Electrolytic && l.Part.PlusLead == l.Letter && !IsBipolar(l.Part)) is { } lead)
                yield return Reversed(part, $"its cathode ({part.PlusLug}) is on {c.CommonWords} and its anode on the + of {lead.Part.Name}");
        }
        foreach (var valve in c.Chart.Valves.Where(v => v.Type?.Class == "rectifier"))
            foreach (var plate in valve.With(ElectrodeKind.Plate).DistinctBy(c.Node))
                if (Reservoir(c, c.Node(plate), common) is { } filled && !valve.With(ElectrodeKind.Cathode, ElectrodeKind.Filament).Any(k => Reservoir(c, c.Node(k), common) is not null))
                    yield return new("rectifier-reversed", Weight.Contradiction, valve.Part.Name,
                        $"The rectifier {valve.Part.Name} is wired backwards: its plate {plate.Lug} is on the + of {filled.Name}.", "Look which of plate and cathode goes to the reservoir: the cathode does.");
    }

    private static Contradiction Reversed(Part part, string why) =>
        new("rectifier-reversed", Weight.Contradiction, part.Name, $"{part.Name} is reversed: {why}.",
            $"Look at the marking of {part.Name}; if only the book is wrong, correct the + lead.");

    private static bool IsBipolar(Part part)
    {
        var words = $"{part.Marked} {part.Note} {part.KindAsWritten}".ToUpperInvariant();
        return words.Contains("BIPOLAR", StringComparison.Ordinal) || words.Contains("NON-POLAR", StringComparison.Ordinal) || words.Contains("NONPOLAR", StringComparison.Ordinal)
            || words.Split(' ', ',', ';').Any(w => w is "NP" or "BP" or "N.P.");
    }

    /// <summary>Why this node is positive to common for sure, or null.</summary>
    private static string? Positive(RuleContext c, int node)
    {
        if (c.Rails.Contains(node) || c.Supplies.Contains(node)) return $"{c.Name(node)}, a supply";
        if (CathodeOn(c, node) is { } cathode) return $"the cathode of {cathode.Valve.Name}, which is positive";
        if (!c.Supplied.Contains(node)) return null;
        // Fed from a supply through parts: positive, unless a rectifier or a grid's bias pulls it the other way.
        var pulled = c.Chart.PinsOf[node].Any(p => p.Has(ElectrodeKind.ControlGrid) || p.Has(ElectrodeKind.DiodePlate))
            || c.Paths.From(node).Any(s => s.Part.Kind.IsRectifier());
        return pulled ? null : $"{c.Name(node)}, which a supply feeds";
    }

    private static ValvePin? CathodeOn(RuleContext c, int node) =>
        c.Chart.PinsOf[node].FirstOrDefault(p => p.Has(ElectrodeKind.Cathode) && c.Chart.Valves.First(v => v.Part == p.Valve) is var v
            && v.Type?.Class is not ("rectifier" or "damper" or "regulator" or "diode")
            && v.With(ElectrodeKind.Plate).Any(q => c.Supplied.Contains(c.Node(q))))
        is { } pin && c.Paths.From(node).Any(s => s.To == c.Common && s.Part.Kind is PartKind.Resistor or PartKind.Control) ? pin : null;

    /// <summary>A supply electrolytic whose + is on this node and whose − is on common.</summary>
    private static Part? Reservoir(RuleContext c, int node, int common) =>
        c.Chart.LeadsOf[node].Select(l => l.Part).FirstOrDefault(p => p.Kind == PartKind.Electrolytic && p.RatedVolts is null or >= 50
            && c.Chart.NodeOf(p.PlusLug) == node && c.Chart.NodeOf(p.MinusLug) == common);
}
