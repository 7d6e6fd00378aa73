using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Lugbook.Restoration.Choose;

/// <summary>Roles as people write them.</summary>
internal static class RoleWords
{
    private static readonly FrozenDictionary<Role, string> Words = new Dictionary<Role, string>
    {
        [Role.Unknown] = "not known", [Role.AcrossLine] = "across the line", [Role.LineToTouchable] = "line to touchable", [Role.Doubler] = "doubler", [Role.Reservoir] = "reservoir",
        [Role.Filter] = "filter", [Role.Decoupling] = "decoupling", [Role.HeaterBypass] = "heater bypass", [Role.CathodeBypass] = "cathode bypass", [Role.Coupling] = "coupling",
        [Role.PlateToPlate] = "plate to plate", [Role.PlateBypass] = "plate bypass", [Role.ScreenBypass] = "screen bypass", [Role.ControlVoltageFilter] = "control voltage filter",
        [Role.Tuned] = "tuned circuit", [Role.Tone] = "tone", [Role.RfBypass] = "RF bypass", [Role.Boost] = "boost", [Role.Feedback] = "feedback", [Role.CathodeBias] = "cathode bias",
        [Role.PlateLoad] = "plate load", [Role.GridLeak] = "grid leak", [Role.ScreenDropper] = "screen dropper", [Role.SupplyDropper] = "supply dropper", [Role.LineSeries] = "in series with the line",
        [Role.TouchBarrier] = "touch barrier", [Role.GridStopper] = "grid stopper", [Role.Divider] = "divider", [Role.DetectorLoad] = "detector load", [Role.Timing] = "timing",
        [Role.Damping] = "damping", [Role.ArcSuppression] = "arc suppression", [Role.SignalSeries] = "in series with the signal", [Role.BiasSupply] = "bias supply", [Role.HeaterString] = "heater string",
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, Role> Roles = Words.Select(w => (Key(w.Value), w.Key))
        .Concat([("agc filter", Role.ControlVoltageFilter), ("avc filter", Role.ControlVoltageFilter), ("bias filter", Role.ControlVoltageFilter), ("bypass", Role.Decoupling), ("smoothing", Role.Filter),
            ("first filter", Role.Reservoir), ("tuned", Role.Tuned), ("deflection", Role.Timing), ("oscillator timing", Role.Timing), ("spark suppression", Role.ArcSuppression), ("bleeder", Role.Divider), ("line series", Role.LineSeries),
            ("across line", Role.AcrossLine), ("rf bypass", Role.RfBypass), ("if bypass", Role.RfBypass)])
        .DistinctBy(r => r.Item1).ToFrozenDictionary(r => r.Item1, r => r.Item2, StringComparer.OrdinalIgnoreCase);

    /// <summary>In the trade's words.</summary>
    public static string Of(Role role) => Words[role];

    /// <summary>The role that a user wrote, by its words or its name; null when it is none.</summary>
    public static Role? Read(string? written) => written is null ? null : Roles.TryGetValue(Key(written), out var role) ? role : Enum.TryParse<Role>(written.Trim(), ignoreCase: true, out var named) && Enum.IsDefined(named) ? named : null;

    /// <summary>Roles that a resistor, or else a capacitor, may have, in the order of the alphabet.</summary>
    public static ImmutableArray<Role> For(bool resistor) => [.. Words.Keys.Where(r => r != Role.Unknown && (resistor ? ForResistors.Contains(r) : !ForResistors.Contains(r) || Both.Contains(r))).OrderBy(Of, StringComparer.Ordinal)];

    private static readonly FrozenSet<Role> ForResistors = new[]
    {
        Role.CathodeBias, Role.PlateLoad, Role.GridLeak, Role.ScreenDropper, Role.SupplyDropper, Role.LineSeries, Role.TouchBarrier, Role.GridStopper, Role.Divider, Role.DetectorLoad,
        Role.Damping, Role.SignalSeries, Role.BiasSupply, Role.HeaterString, Role.Decoupling, Role.ControlVoltageFilter, Role.Tone, Role.Feedback, Role.Timing,
    }.ToFrozenSet();

    private static readonly FrozenSet<Role> Both = new[] { Role.Decoupling, Role.ControlVoltageFilter, Role.Tone, Role.Feedback, Role.Timing, Role.Damping }.ToFrozenSet();

    private static string Key(string words) => string.Join(' ', words.Replace('-', ' ').Split(' ', StringSplitOptions.RemoveEmptyEntries)).ToLowerInvariant();
}
