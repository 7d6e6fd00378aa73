using System.Collections.Immutable;

namespace Lugbook.Circuit.Valves;

/// <summary>Reads handbook lines as people type them.</summary>
public static class HandbookLines
{
    /// <summary>Lines, and everything in the text that could not be read.</summary>
    /// <param name="Lines">Good lines, in order.</param>
    /// <param name="Faults">Faults, in order; empty when all is well.</param>
    public sealed record Reading(ImmutableArray<HandbookLine> Lines, ImmutableArray<LineFault> Faults);

    /// <summary>Parses a table with a header; pure.</summary>
    /// <param name="text">
    /// Columns, in any order, upper or lower case: type, plate_v, screen_v, grid1_v, cathode_ohm, plate_ma, screen_ma, gm_umho, rp_ohm, mu, source,
    /// confidence, connection, kind; optional grid3_v and volts_to (cathode or ground, of a self-bias line; where it is blank, lines whose source is a
    /// Philips sheet are to cathode and all others to ground, as those books print them). Other columns are ignored. Lines beginning with # are comments.
    /// </param>
    /// <returns>The good lines and a fault for each thing that is wrong; a line with a fault is left out.</returns>
    public static Reading Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var table = Table.Of(text, "type", "plate_v");
        var lines = ImmutableArray.CreateBuilder<HandbookLine>();
        if (table.Has("type") && table.Has("plate_v"))
        {
            foreach (var row in table.Rows)
                if (Line(row) is { } line) lines.Add(line);
        }
        return new(lines.ToImmutable(), [.. table.Faults.OrderBy(f => f.Line)]);
    }

    private static HandbookLine? Line(Table.Row row)
    {
        var type = row.Text("type");
        if (type.Length == 0) row.Fault("type", "The valve's type is missing.", "Write the type, such as 6SN7GT.");
        var plate = row.Number("plate_v", 0, 5000, leastBelongs: false);
        if (plate is null && row.Good) row.Fault("plate_v", "The plate voltage is missing.", "Write it in volts.");
        var screen = row.Number("screen_v", 0, 2000, leastBelongs: false);
        var grid = row.Number("grid1_v", -1000, 100);
        var grid3 = row.Number("grid3_v", -500, 100);
        var cathode = row.Number("cathode_ohm", 0, 1e6, leastBelongs: false);
        var ip = row.Number("plate_ma", 0, 1e4, leastBelongs: false) / 1e3;
        var isc = row.Number("screen_ma", 0, 1e4, leastBelongs: false) / 1e3;
        var gm = row.Number("gm_umho", 0, 1e6, leastBelongs: false) / 1e6;
        var rp = row.Number("rp_ohm", 0, 1e8, leastBelongs: false);
        var mu = row.Number("mu", 0, 1000, leastBelongs: false);
        var connection = ConnectionOf(row, screen);
        var kind = KindOf(row, connection);
        var toCathode = row.Text("volts_to").ToUpperInvariant() switch
        {
            "CATHODE" => true,
            "GROUND" => false,
            "" => row.Text("source").Contains("Philips", StringComparison.OrdinalIgnoreCase),
            _ => Bad(row),
        };
        if (row.Good) CheckWhole(row, connection, kind, screen, grid, cathode, ip, gm);
        if (!row.Good) return null;
        var section = row.Text("connection").ToUpperInvariant() switch { "TRIODE-SECTION" => "triode", "HEPTODE-SECTION" => "heptode", "PENTODE-SECTION" => "pentode", _ => "" };
        return new(type, section, connection, kind, plate!.Value, screen, grid, grid3 ?? 0, cathode, toCathode, ip, isc, gm, rp, mu,
            row.Text("confidence").Equals("verified", StringComparison.OrdinalIgnoreCase), row.Text("source"), row.Line)
        {
            Beam = row.Text("connection").Equals("beam", StringComparison.OrdinalIgnoreCase),
        };
    }

    private static bool Bad(Table.Row row)
    {
        row.Fault("volts_to", "This is not one of the two words.", "Write cathode or ground, or leave it blank.");
        return false;
    }

    private static Connection ConnectionOf(Table.Row row, double? screen)
    {
        switch (row.Text("connection").ToUpperInvariant())
        {
            case "": return screen is null ? Connection.Triode : Connection.Pentode;
            case "TRIODE" or "TRIODE-SECTION": return Connection.Triode;
            case "PENTODE" or "PENTODE-SECTION" or "BEAM": return Connection.Pentode;
            case "TRIODE-CONNECTED": return Connection.TriodeConnected;
            case "CONVERTER": return Connection.Converter;
            case "HEPTODE" or "HEPTODE-SECTION": return Connection.Heptode;
            case "OSCILLATOR-TRIODE": return Connection.OscillatorTriode;
            default:
                row.Fault("connection", "This connection is not known.", "Write triode, pentode, triode-connected, converter, heptode or oscillator-triode.");
                return Connection.Triode;
        }
    }

    private static LineKind KindOf(Table.Row row, Connection connection)
    {
        switch (row.Text("kind").ToUpperInvariant())
        {
            case "" when connection == Connection.Converter: return LineKind.Conversion;
            case "" or "CHARACTERISTIC": return LineKind.Characteristic;
            case "OPERATION": return LineKind.Operation;
            case "PUSH-PULL PER TUBE" or "PUSH-PULL": return LineKind.PushPull;
            case "CUTOFF": return LineKind.Cutoff;
            case "REMOTE CUTOFF": return LineKind.RemoteCutoff;
            case "ZERO-BIAS PULSE" or "PULSE": return LineKind.Pulse;
            case "CONVERTER" or "CONVERSION": return LineKind.Conversion;
            default:
                row.Fault("kind", "This kind of line is not known.", "Write characteristic, operation, push-pull, cutoff, remote cutoff, pulse or converter.");
                return LineKind.Characteristic;
        }
    }

    private static void CheckWhole(Table.Row row, Connection connection, LineKind kind, double? screen, double? grid, double? cathode, double? ip, double? gm)
    {
        if (connection == Connection.Converter) { if (screen is null) row.Fault("screen_v", "A converter line needs the voltage of grids 2 and 4.", "Write it in volts."); }
        else if (grid is not null && cathode is not null) row.Fault("cathode_ohm", "Both a grid voltage and a cathode resistor are given.", "Keep the one that was given; leave the other blank.");
        else if (grid is null && cathode is null) row.Fault("grid1_v", "Neither a grid voltage nor a cathode resistor is given.", "Write the grid voltage (negative), or the self-bias resistor in cathode_ohm.");
        if (connection is Connection.Pentode or Connection.Heptode && screen is null) row.Fault("screen_v", "The screen voltage is missing.", "Write it, or call the connection triode-connected when the screen is on the plate.");
        if (kind == LineKind.RemoteCutoff ? gm is null : ip is null)
            row.Fault(kind == LineKind.RemoteCutoff ? "gm_umho" : "plate_ma", "The line states no current.", "Write what flows; a line without it says nothing about the valve.");
    }
}
