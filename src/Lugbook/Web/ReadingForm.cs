using System.Globalization;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;

namespace Lugbook.Web;

/// <summary>Turns what was typed into a reading, and asks back what cannot be meant.</summary>
internal static class ReadingForm
{
    /// <param name="Reading">The reading; null when it cannot be read.</param>
    /// <param name="Trouble">What is wrong or doubtful, as a sentence; null when all is well.</param>
    /// <param name="IsDoubtful">True when it may be stored if it is confirmed.</param>
    internal sealed record Outcome(Reading? Reading, string? Trouble, bool IsDoubtful);

    /// <param name="part">What is measured.</param>
    /// <param name="kind">What of it.</param>
    /// <param name="text">What the meter shows.</param>
    /// <param name="lifted">A lead is lifted.</param>
    /// <param name="liftedPart">Whose, if not the part's own.</param>
    /// <param name="meter">The meter.</param>
    /// <param name="testVolts">Volts of the test, as typed.</param>
    /// <param name="now">The time.</param>
    public static Outcome Read(Part part, ReadingKind kind, string? text, bool lifted, string? liftedPart, Meter meter, string? testVolts, DateTimeOffset now)
    {
        if (string.IsNullOrWhiteSpace(text)) return new(null, "Type what the meter shows, or OL.", false);
        double? volts = null;
        if (!string.IsNullOrWhiteSpace(testVolts))
        {
            if (!double.TryParse(testVolts.Replace(',', '.').TrimEnd('V', 'v', ' '), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var v) || v is <= 0 or > 10_000)
                return new(null, $"'{testVolts}' is not a test voltage. Nothing was stored.", false);
            volts = v;
        }
        var top = meter.TopOf(kind);
        if (!ReadingWords.TryRead(text, kind, top, out var value, out var over, out var complaint)) return new(null, $"{Capital(complaint!.Problem)} {complaint.Remedy} Nothing was stored.", false);
        var reading = new Reading { Name = part.Name, Kind = kind, Value = value, IsOver = over, IsLifted = lifted && liftedPart is null, LiftedPart = lifted ? liftedPart : null, Meter = meter.Name, TestVolts = volts, At = now };
        var doubt = Doubt(part, reading, text.Trim(), meter, top);
        return new(reading, doubt, doubt is not null);
    }

    /// <summary>Volts at a lug, or what is wrong.</summary>
    public static (Reading? Reading, string? Trouble) ReadVolts(MapResult map, string? lug, string? text, Meter meter, DateTimeOffset now)
    {
        var name = lug?.Trim() ?? "";
        if (map.NodeOf(name) is null) return (null, name.Length == 0 ? "Which lug? Write it as in V3-6." : $"No lug is called '{name}'. Write it as in V3-6; nothing was stored.");
        var (value, over, trouble) = Figure(ReadingKind.Volts, text, meter);
        if (trouble is not null) return (null, trouble);
        return (new() { Name = map.Book.Lugs.Named(name)?.Name ?? name, Kind = ReadingKind.Volts, Value = value, IsOver = over, Meter = meter.Name, At = now }, null);
    }

    /// <summary>A reading between two lugs right after a position was soldered, or what is wrong.</summary>
    public static (Reading? Reading, string? Trouble) ReadBetween(string position, Restoration.Slips.CheckReading wanted, string? text, Meter meter, DateTimeOffset now) =>
        ReadBetween(position, wanted.Kind, wanted.From, wanted.To, text, meter, now);

    /// <summary>The same, told by its lugs.</summary>
    public static (Reading? Reading, string? Trouble) ReadBetween(string position, ReadingKind kind, string from, string to, string? text, Meter meter, DateTimeOffset now)
    {
        var (value, over, trouble) = Figure(kind, text, meter);
        if (trouble is not null) return (null, trouble);
        return (new() { Name = position, Kind = kind, Value = value, IsOver = over, FromLug = from, ToLug = to, Meter = meter.Name, At = now, Note = "after soldering" }, null);
    }

    /// <summary>A reading between two lugs, at any time, or what is wrong.</summary>
    public static (Reading? Reading, string? Trouble) ReadAt(MapResult map, string place, ReadingKind kind, string from, string to, string? text, Meter meter, DateTimeOffset now)
    {
        foreach (var lug in new[] { from, to })
            if (map.NodeOf(lug) is null) return (null, lug.Length == 0 ? "Which lug? Write it as in V3-6, or tap it." : $"No lug is called '{lug}'. Write it as in V3-6; nothing was stored.");
        if (map.NodeOf(from)!.Index == map.NodeOf(to)!.Index) return (null, $"{from} and {to} are one node: nothing is to be read between them. Nothing was stored.");
        var (value, over, trouble) = Figure(kind, text, meter);
        if (trouble is not null) return (null, trouble);
        return (new() { Name = place, Kind = kind, Value = value, IsOver = over, FromLug = map.Book.Lugs.Named(from)?.Name ?? from, ToLug = map.Book.Lugs.Named(to)?.Name ?? to, Meter = meter.Name, At = now }, null);
    }

    private static (double Value, bool Over, string? Trouble) Figure(ReadingKind kind, string? text, Meter meter)
    {
        if (string.IsNullOrWhiteSpace(text)) return (0, false, kind == ReadingKind.Volts ? "Type what the meter shows, with its minus." : "Type what the meter shows, or OL.");
        if (!ReadingWords.TryRead(text, kind, meter.TopOf(kind), out var value, out var over, out var complaint)) return (0, false, $"{Capital(complaint!.Problem)} {complaint.Remedy} Nothing was stored.");
        return kind == ReadingKind.Volts && Math.Abs(value) > 30e3 ? (0, false, $"{text.Trim()} is more than any hand meter reads. Write volts; nothing was stored.") : (value, over, null);
    }

    // Three hundred times off is a forgotten k or M far more often than a part.
    private static string? Doubt(Part part, Reading reading, string text, Meter meter, double top)
    {
        const string again = "Store again to keep it as it stands.";
        // A figure without its unit: insulation is told in megohms, leakage in micro- and milliamperes.
        if (reading is { Kind: ReadingKind.Insulation, IsOver: false, Value: < 10e3 }) return $"{text} is {Notation.Print(reading.Value, Unit.Ohm)}, as good as a short. Was M meant? {again}";
        if (reading is { Kind: ReadingKind.Leakage, Value: > 0.1 }) return $"{text} is {Notation.Print(reading.Value, Unit.Ampere)}. Was mA or µA meant? {again}";
        if (top > 0 && !reading.IsOver && reading.Value > 1.1 * top) return $"{meter.Name} shows {Notation.Print(top, reading.Unit!.Value)} at most, and {text} is more. Is another meter in your hand? Choose it below. {again}";
        if (reading.IsOver || part.Value is not { } nominal || nominal <= 0 || reading.Unit is not { } unit || reading.Unit != part.Unit || reading.Value <= 0) return null;
        if (reading.Kind is not (ReadingKind.Ohms or ReadingKind.Farads)) return null;
        var off = reading.Value / nominal;
        return off is > 300 or < 1.0 / 300
            ? $"{text} is {Notation.Print(reading.Value, unit)}, and {part.Name} is marked {Notation.Print(nominal, unit)}. Was a k, M, n or µ meant? {again}" : null;
    }

    private static string Capital(string sentence) => sentence.Length == 0 ? sentence : char.ToUpperInvariant(sentence[0]) + sentence[1..] + (sentence.EndsWith('.') ? "" : ".");

    /// <summary>The kinds of reading that make sense for a part.</summary>
    public static ReadingKind[] KindsFor(PartKind kind) => kind switch
    {
        PartKind.Electrolytic => [ReadingKind.Leakage, ReadingKind.Farads, ReadingKind.SeriesOhms, ReadingKind.Insulation],
        _ when kind.IsCapacitor() => [ReadingKind.Insulation, ReadingKind.Farads, ReadingKind.Leakage, ReadingKind.Dissipation],
        _ => [ReadingKind.Ohms],
    };
}
