using System.Collections.Immutable;

namespace Lugbook.Circuit.Valves;

/// <summary>A row of tubes.csv, as far as the laws need it.</summary>
internal sealed record Tube(string Type, ImmutableArray<string> Equivalents, string Class, double? PlateWatts, string Notes, string PointsUnder)
{
    /// <summary>Reads tubes.csv.</summary>
    public static ImmutableArray<Tube> Read(string text, List<LineFault> faults)
    {
        var table = Table.Of(text, "type", "class");
        faults.AddRange(table.Faults);
        return [.. table.Rows.Where(r => r.Text("type").Length > 0).Select(r => new Tube(
            r.Text("type"), Equal(r.Text("equivalents")), r.Text("class"), r.Number("max_plate_w", 0), r.Text("notes"), r.Text("points_under")))];
    }

    // Names such as "6AQ5; 12AQ5 (12.6 V)" or "5Z2P; 25W6GT (near)": the second is another heater, hence usually another row; a near one is not the same valve.
    private static ImmutableArray<string> Equal(string text) =>
        [.. text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
            .Where(e => !e.Contains("near", StringComparison.OrdinalIgnoreCase))
            .Select(e => e.Split('(')[0].Trim()).Where(e => e.Length > 0)];

    /// <summary>Which shape of curve lines belong to.</summary>
    /// <param name="tube">The type's row, when there is one.</param>
    /// <param name="lines">Lines of one section.</param>
    public static ValveClass ClassOf(Tube? tube, ImmutableArray<HandbookLine> lines)
    {
        if (lines.Any(l => l.Connection is Connection.Converter or Connection.Heptode or Connection.OscillatorTriode)) return ValveClass.Converter;
        if (lines.All(l => l.Connection == Connection.Triode)) return ValveClass.Triode;
        if (tube?.Class.Contains("beam", StringComparison.OrdinalIgnoreCase) == true || lines.Any(l => l.Beam)) return ValveClass.Beam;
        if (lines.Any(l => l.Kind == LineKind.RemoteCutoff) || tube?.Notes.Contains("remote cutoff", StringComparison.OrdinalIgnoreCase) == true) return ValveClass.RemotePentode;
        // Signal pentodes are rated for 3 or 4 W of plate dissipation; output valves for 4.5 W and more.
        return (tube?.PlateWatts ?? lines.Max(l => l.PlateVolts * l.PlateAmperes ?? 0) * 1.2) > 4.2 ? ValveClass.OutputPentode : ValveClass.SharpPentode;
    }
}
