using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit.Elements;

namespace Lugbook.Restoration.Wake;

/// <summary>A step before its numbers are known.</summary>
internal sealed record PlannedStep(string Title, string Connect, string Purpose, double? LampWatts, double LineShare, ImmutableArray<string> Out, double WaitSeconds, string? Needs, ImmutableArray<string> Cautions);

/// <summary>Which steps lead to the full line with what the user has.</summary>
/// <remarks>The order (limited before free, few valves before all) is common practice, no source.</remarks>
internal static class Plan
{
    private const double WarmSeconds = 60, AtOnceSeconds = 5;

    public static ImmutableArray<PlannedStep> Of(WakeSet set, WakeEquipment equipment, ImmutableArray<LampCase> lamps)
    {
        var steps = ImmutableArray.CreateBuilder<PlannedStep>();
        var best = Lamps.Best(lamps);
        var lamp = best?.Watts;
        var isolation = Isolation(set, equipment);
        var behind = lamp is { } w ? string.Create(CultureInfo.InvariantCulture, $"line → {(isolation is null ? "" : "isolating transformer → ")}{w:0} W lamp in series → set") : "line → set";
        var movable = set.Valves.Where(set.CanPull).ToImmutableArray();
        if (lamp is not null && movable.Length == set.Valves.Length && set.Valves.Length > 0 && HasTransformer(set))
        {
            steps.Add(new("Transformer alone", $"{behind}; all valves out.", "Shows shorted turns, a shorted winding or a short on the line's side before any valve is risked.",
                lamp, 1, set.Valves, AtOnceSeconds, isolation, [WakeCautions.Alone, WakeCautions.OneHand]));
        }
        var rectifiers = set.RectifierValves;
        if (lamp is not null && rectifiers.Length > 0 && rectifiers.All(r => movable.Contains(r)) && rectifiers.Length < set.Valves.Length)
        {
            steps.Add(new("Heaters, no high voltage", $"{behind}; all valves in but {Join(rectifiers)}.", "All heaters and dial lamps light; no high voltage is made yet.",
                lamp, 1, rectifiers, WarmSeconds, isolation, [WakeCautions.OneHand]));
        }
        if (lamp is not null)
        {
            var starved = best!.Verdict == LampVerdict.Starves ? " This lamp is too small for the set: low volts here are the lamp's doing." : "";
            steps.Add(new("All valves, through the lamp", $"{behind}; all valves in, loudspeaker or load connected, volume down.",
                $"The lamp may flash, then sinks as heaters warm and rises a little when the rectifier begins.{starved}", lamp, 1, [], WarmSeconds, isolation, [WakeCautions.Speaker, WakeCautions.Electrolytics, WakeCautions.OneHand]));
            if (lamps.LastOrDefault() is { } larger && larger.Watts > lamp && larger.Verdict != LampVerdict.Starves)
            {
                steps.Add(new("A larger lamp", string.Create(CultureInfo.InvariantCulture, $"As before with the {larger.Watts:0} W lamp."), "Nearly the full line, still limited: compare the supply with the sheet.", larger.Watts, 1, [], WarmSeconds, isolation, [WakeCautions.OneHand]));
            }
        }
        if (equipment.VariableTransformer)
        {
            var dry = set.Rectifiers.Any() && set.Rectifiers.All(d => !d.Law.NeedsHeat);
            foreach (var share in dry ? new[] { 0.3, 0.6, 0.85 } : new[] { 0.6, 0.85 })
            {
                steps.Add(new(string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} % of the line"), string.Create(CultureInfo.InvariantCulture, $"line → {(isolation is null ? "" : "isolating transformer → ")}fuse → variable transformer at {share * set.LineVolts:0} V → set; all valves in."),
                    dry ? "A dry rectifier passes at any voltage: the reservoirs rise with the line." : "A rectifier valve passes little while its heater is cool: the supply comes late and all at once. This does not re-form electrolytics.",
                    null, share, [], WarmSeconds, isolation, [WakeCautions.NotAnIsolator, WakeCautions.OneHand]));
            }
        }
        steps.Add(new("Full line", $"line → {(isolation is null ? "" : "isolating transformer → ")}the right fuse → set; nothing in series any more.", "The set as it works: compare every supply with the sheet, then go on to the voltage sheet.",
            null, 1, [], WarmSeconds, isolation, [WakeCautions.Alone, WakeCautions.Speaker, WakeCautions.OneHand, WakeCautions.Fire]));
        return steps.ToImmutable();
    }

    private static string? Isolation(WakeSet set, WakeEquipment equipment)
    {
        if (HasTransformer(set) && !WakeCautions.IsLive(set)) return null;
        var need = 1.5 * set.LineVolts * (set.Solved.Cycle!.Currents.GetValueOrDefault(set.Line.Name)?.Rms ?? 0.5);
        return equipment.IsolationVoltAmperes switch
        {
            null => string.Create(CultureInfo.InvariantCulture, $"This chassis may be joined to the line: an isolating transformer of {Math.Ceiling(need / 10) * 10:0} VA or more is needed, and a qualified person where you are not one. You have entered none."),
            { } va when va < need => string.Create(CultureInfo.InvariantCulture, $"This chassis may be joined to the line: your isolating transformer of {va:0} VA is smaller than the {Math.Ceiling(need / 10) * 10:0} VA that this set wants (one and a half times its own)."),
            _ => "This chassis may be joined to the line: only through the isolating transformer, and nothing else on it.",
        };
    }

    private static bool HasTransformer(WakeSet set) => set.Network.Elements.Any(e => e is Transformer t && t.Windings.Length > 1);

    private static string Join(ImmutableArray<string> names) => names.Length == 1 ? names[0] : $"{string.Join(", ", names[..^1])} and {names[^1]}";
}
