using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Trace;

/// <summary>What a set does, and which faults that makes more likely.</summary>
/// <remarks>Common practice, no source; only orders of magnitude count, and readings overrule them.</remarks>
internal static class Symptoms
{
    /// <summary>The words that are understood, each with what it makes of the weights.</summary>
    public static ImmutableArray<(string Word, string Says)> Known { get; } =
    [
        ("hum", "electrolytics open or leaky five times as likely, a heater that touches a cathode five times"),
        ("silent", "dead valves, opens and shorts three times as likely"),
        ("weak", "weak valves and open capacitors three times as likely, drifted resistors one and a half"),
        ("distorted", "leaky capacitors and grid current four times as likely"),
        ("crackle", "controls and drifted resistors three times as likely"),
        ("hot", "leaky and shorted parts and grid current three times as likely"),
        ("no raster", "dead valves and opens three times as likely"),
        ("narrow", "weak valves and drifted resistors three times as likely"),
        ("rolls", "leaky capacitors and drifted resistors three times as likely"),
        ("fuse blows", "shorts five times as likely"),
    ];

    /// <summary>What could not be understood of a list of words.</summary>
    public static ImmutableArray<string> Unknown(IEnumerable<string> words) => [.. words.Where(w => !Known.Any(k => string.Equals(k.Word, w.Trim(), StringComparison.OrdinalIgnoreCase)))];

    internal static double Factor(ImmutableArray<string> words, Fault fault, Table<Part> parts) => words.Aggregate(1.0, (f, w) => f * Of(w.Trim().ToLowerInvariant(), fault, parts));

    private static double Of(string word, Fault fault, Table<Part> parts)
    {
        var part = parts.Named(fault.Position);
        return word switch
        {
            "hum" when part?.Kind == PartKind.Electrolytic && fault.Kind is FaultKind.Open or FaultKind.Leaky => 5,
            "hum" when fault.Id.Contains("heater touching", StringComparison.Ordinal) => 5,
            "silent" or "no raster" when fault.Kind is FaultKind.Dead or FaultKind.Open => 3,
            "silent" when fault.Kind == FaultKind.Shorted => 3,
            "weak" when fault.Kind == FaultKind.Weak || fault.Kind == FaultKind.Open && part?.Kind.IsCapacitor() == true => 3,
            "weak" when fault.Kind == FaultKind.High => 1.5,
            "distorted" when fault.Kind is FaultKind.Leaky or FaultKind.GridCurrent => 4,
            "crackle" when part?.Kind == PartKind.Control || fault.Kind == FaultKind.High => 3,
            "hot" when fault.Kind is FaultKind.Leaky or FaultKind.Shorted or FaultKind.GridCurrent => 3,
            "narrow" when fault.Kind is FaultKind.Weak or FaultKind.High => 3,
            "rolls" when fault.Kind is FaultKind.Leaky or FaultKind.High => 3,
            "fuse blows" when fault.Kind == FaultKind.Shorted => 5,
            _ => 1,
        };
    }
}
