using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Trace;

/// <summary>One line of the table of weights.</summary>
/// <param name="Family">"paper", "resistor", "valve", "slip" …</param>
/// <param name="Fault">"leaky", "high", "weak", "missed" …</param>
/// <param name="Weight">How often it is met, beside the others; 0 or more.</param>
/// <param name="Why">The reason, for the reader.</param>
public sealed record Prior(string Family, string Fault, double Weight, string Why);

/// <summary>How often each fault is met, before anything is measured. Editable: a file of lines replaces those of the same family and fault.</summary>
/// <remarks>The weights are common practice, no source: only their order of magnitude counts, readings do the rest.</remarks>
public sealed record PriorTable(ImmutableArray<Prior> Lines)
{
    /// <summary>A new part's faults are this much rarer than an old one's.</summary>
    public const double NewPartShare = 0.05;
    /// <summary>A slip where nobody worked is this much rarer than one where somebody did.</summary>
    public const double UntouchedShare = 0.02;
    /// <summary>What a set on the bench is before a reading: as it should be.</summary>
    public const double HealthyShare = 0.3;
    /// <summary>Or something that is not in the list.</summary>
    public const double NotModelledShare = 0.03;

    /// <summary>The table that ships.</summary>
    public static PriorTable Usual { get; } = new(
    [
        new("paper", "leaky", 12, "Old paper takes up damp: it leaks nearly always, and most where it is warm."),
        new("paper", "shorted", 2, "A leak that went on."),
        new("paper", "open", 1, "A lead that came loose from the foil."),
        new("electrolytic", "leaky", 5, "The oxide has gone back; re-forming may mend it."),
        new("electrolytic", "shorted", 2, "It was run with a leak."),
        new("electrolytic", "open", 6, "Dried out: the most usual end."),
        new("mica", "leaky", 0.5, "Mica lasts, its case does not always."),
        new("mica", "shorted", 0.3, "Silver creeps across in some old coil cans."),
        new("mica", "open", 0.2, "Rare."),
        new("ceramic", "leaky", 0.3, "Rare."),
        new("ceramic", "shorted", 0.2, "Cracked by heat of the iron."),
        new("ceramic", "open", 0.2, "Rare."),
        new("film", "leaky", 0.3, "Rare."),
        new("film", "shorted", 0.2, "Rare."),
        new("film", "open", 0.2, "Rare."),
        new("capacitor", "leaky", 6, "Of no known kind: may be paper."),
        new("capacitor", "shorted", 1, "Of no known kind."),
        new("capacitor", "open", 1, "Of no known kind."),
        new("resistor", "high", 8, "Composition drifts upwards with heat and years."),
        new("resistor", "open", 2, "Drift that went on, or a crack."),
        new("resistor", "low", 0.5, "Rare: carbon that was overheated."),
        new("resistor", "shorted", 0.1, "Very rare."),
        new("control", "open", 1, "A track worn through, a slider that lifts."),
        new("control", "high", 1, "Carbon tracks drift like resistors."),
        new("winding", "open", 1.5, "Corrosion at the thin wire's ends."),
        new("winding", "shorted", 0.5, "Insulation broken by heat."),
        new("valve", "weak", 5, "Emission falls with hours."),
        new("valve", "dead", 3, "Heater open, air, or not in its socket."),
        new("valve", "gridcurrent", 2, "Gas, or a grid that emits."),
        new("valve", "touching", 0.7, "Electrodes touch when hot."),
        new("rectifier", "weak", 4, "Emission falls, selenium rises in resistance."),
        new("rectifier", "dead", 2, "Heater open, or a burnt joint."),
        new("switch", "open", 0.5, "Contacts tarnish."),
        new("fuse", "open", 1, "It blew: something made it."),
        new("other", "open", 0.5, "A joint or a wire within."),
        new("slip", "missed", 1, "The most usual slip: a joint that was forgotten."),
        new("slip", "neighbour", 0.7, "The next lug looks alike."),
        new("slip", "bridge", 0.6, "Solder or a clipping."),
        new("slip", "reversed", 1.5, "Where polarity counts."),
        new("slip", "wrong value", 0.6, "A band misread."),
        new("slip", "empty", 0.4, "Interrupted work."),
        new("slip", "wire off", 0.6, "A wire came off while the lug was hot."),
        new("slip", "wire displaced", 0.3, "A wire went along with the lead."),
    ]);

    /// <summary>A line's weight; 0 where there is none.</summary>
    public Prior Of(string family, string fault) =>
        Lines.LastOrDefault(l => string.Equals(l.Family, family, StringComparison.OrdinalIgnoreCase) && string.Equals(l.Fault, fault, StringComparison.OrdinalIgnoreCase)) ?? new(family, fault, 0, "not in the table");

    /// <summary>The table with a user's lines: "family,fault,weight,why" a line; a header and empty lines are passed over.</summary>
    /// <returns>The table, and what could not be read, line by line.</returns>
    public (PriorTable Table, ImmutableArray<string> Complaints) With(string text)
    {
        var (lines, complaints) = (Lines.ToBuilder(), ImmutableArray.CreateBuilder<string>());
        var number = 0;
        foreach (var raw in text.Split('\n'))
        {
            number++;
            var line = raw.Trim().TrimStart('\uFEFF');
            if (line.Length == 0 || line.StartsWith('#') || line.StartsWith("family", StringComparison.OrdinalIgnoreCase)) continue;
            var cells = line.Split(',', 4).Select(c => c.Trim().Trim('"')).ToArray();
            if (cells.Length < 3 || !double.TryParse(cells[2], NumberStyles.Float, CultureInfo.InvariantCulture, out var weight) || !(weight >= 0 && weight <= 1e6))
            {
                complaints.Add($"line {number}: \"{line}\" is no weight. Write family,fault,weight,why with a weight of 0 or more: paper,leaky,12,damp.");
                continue;
            }
            if (!Usual.Lines.Any(l => string.Equals(l.Family, cells[0], StringComparison.OrdinalIgnoreCase) && string.Equals(l.Fault, cells[1], StringComparison.OrdinalIgnoreCase)))
            {
                complaints.Add($"line {number}: nothing is called \"{cells[0]}, {cells[1]}\". Known: {string.Join("; ", Usual.Lines.GroupBy(l => l.Family).Select(g => $"{g.Key}: {string.Join(", ", g.Select(l => l.Fault))}"))}.");
                continue;
            }
            lines.Add(new(cells[0], cells[1], weight, cells.Length > 3 && cells[3].Length > 0 ? cells[3] : "the user's own"));
        }
        return (new(lines.ToImmutable()), complaints.ToImmutable());
    }

    /// <summary>The family of a part, as the table names it.</summary>
    public static string FamilyOf(PartKind kind) => kind switch
    {
        PartKind.Paper => "paper",
        PartKind.Electrolytic => "electrolytic",
        PartKind.Mica or PartKind.SilverMica => "mica",
        PartKind.Ceramic or PartKind.Trimmer or PartKind.VariableCapacitor => "ceramic",
        PartKind.Film => "film",
        PartKind.Resistor => "resistor",
        PartKind.Control => "control",
        PartKind.Winding => "winding",
        PartKind.Switch => "switch",
        PartKind.Fuse => "fuse",
        _ when kind.IsRectifier() => "rectifier",
        _ when kind.IsCapacitor() => "capacitor",
        _ => "other",
    };

    /// <summary>Logarithm of each fault's probability before any reading.</summary>
    internal static double[] LogPriors(ImmutableArray<Fault> faults, ImmutableArray<string> symptoms, Trade.Table<Part> parts)
    {
        double[] weights = [.. faults.Select(f => f.Kind is FaultKind.Healthy or FaultKind.NotModelled ? 0 : f.Weight * Symptoms.Factor(symptoms, f, parts))];
        var sum = Math.Max(weights.Sum(), 1e-12);
        // Who names a symptom says that something is wrong.
        var healthy = symptoms.IsEmpty ? HealthyShare : 0.1 * HealthyShare;
        return [.. faults.Select((f, i) => Math.Log(Math.Max(1e-12, f.Kind switch
        {
            FaultKind.Healthy => healthy,
            FaultKind.NotModelled => NotModelledShare,
            _ => (1 - healthy - NotModelledShare) * weights[i] / sum,
        })))];
    }
}
