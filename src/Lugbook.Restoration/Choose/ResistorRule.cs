using System.Collections.Immutable;
using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>What a new resistor must be: window, watts, working voltage. Facts: the project's notes on replacement practice; stresses and bounds from the solved circuit.</summary>
internal sealed class ResistorRule(MapResult map, CircuitView view, ChooseBasis? basis)
{
    // Headroom over a computed voltage, for what signals add (common practice, no source).
    private const double SignalRoom = 1.25;
    // No window is narrower than what today's 1 % parts fill.
    private const double Least = 0.01;

    public Requirement Of(Part part, RoleFinding role)
    {
        var (watts, wattsReason) = Watts(part);
        var (volts, voltsReason) = Volts(part, role.Role);
        var (kinds, kindReason) = Kinds(part, role.Role, watts);
        var (celsius, celsiusReason) = CategoryTemperature.Of(Unit.Ohm, false, null);
        return new()
        {
            Unit = Unit.Ohm,
            Value = part.Value is > 0 and { } ohms ? Window(part, ohms, role.Role) : null,
            VoltsAtLeast = volts,
            VoltsReason = voltsReason,
            WattsAtLeast = watts,
            WattsReason = wattsReason,
            Kinds = kinds,
            KindReason = kindReason,
            CelsiusAtLeast = celsius,
            CelsiusReason = celsiusReason,
            LugDistanceMm = LugDistance.Of(map, part),
        };
    }

    private (double, string) Watts(Part part)
    {
        var mark = Math.Max(part.RatedWatts ?? 0.5, 0.5);
        var said = part.RatedWatts is { } marked ? $"At least the old mark of {Show.Number(marked)} W" : "No old mark is entered: 1/2 W is the least that was usual. Compare the bodies";
        if (basis?.StressOf(part.Name)?.Watts is not { } stress) return (mark, said + "; twice what it turns to heat, where that can be computed.");
        var twice = 2 * stress.Normal;
        var worst = stress.Worst > twice ? $" and {Show.Number(Math.Round(stress.Worst, 3))} W when {stress.Moment}" : "";
        var need = Math.Max(mark, Math.Max(twice, stress.Worst));
        return (Math.Round(need, 3), $"{said}; computed: {Show.Number(Math.Round(stress.Normal, 3))} W in it{worst}, {(need > mark * (1 + 1e-9) ? "so more than the mark" : "twice which is less than the mark")}.");
    }

    private ValueWindow Window(Part part, double ohms, Role role)
    {
        var tolerance = part.Tolerance is { } t ? Math.Min(t.Minus, t.Plus) : 0.2;
        var half = Math.Clamp(tolerance / 2, Least, 0.1);
        if (role == Role.TouchBarrier) return new(ohms, ohms, ohms * (1 + half), "Not below the mark: it stands between the line and a hand.");
        var usual = $"Within ±{Show.Number(half * 100)} %, half the old tolerance";
        if (basis?.BoundOf(part.Name) is not { } bound || bound.Up is null && bound.Down is null && !OnlyDirect(role)) return new(ohms * (1 - half), ohms, ohms * (1 + half), usual + ".");
        // The bound is where a limit is passed with everything else nominal; half of the way to it is left to the other parts.
        var (down, up) = (Side(bound.Down, half, role, tolerance), Side(bound.Up, half, role, tolerance));
        var range = $"−{Show.Number(Math.Round(down * 100, 1))} to +{Show.Number(Math.Round(up * 100, 1))} %";
        var limits = string.Join(" and ", new[] { down < half - 1e-9 ? bound.Down : null, up < half - 1e-9 ? bound.Up : null }.OfType<DriftBound>().Select(d => $"at {Show.Value(TwoFigures.Of(d.Ohms), Unit.Ohm)} {d.Limit.Sentence}"));
        return new(ohms * (1 - down), ohms, ohms * (1 + up),
            limits.Length > 0 ? $"{range}, narrowed from ±{Show.Number(half * 100)} %: {limits}."
            : Math.Max(down, up) > half + 1e-9 ? $"{range}: only direct current counts here, and the circuit bears twice that."
            : $"{usual}; the circuit bears that.");
    }

    private static double Side(DriftBound? bound, double half, Role role, double tolerance)
    {
        var wide = OnlyDirect(role) ? Math.Clamp(tolerance, half, 0.2) : half;
        return bound is null ? wide : Math.Max(Math.Min(wide, Math.Abs(bound.Share - 1) / 2), Least);
    }

    // Here nothing but direct current passes, or its value sets no frequency and no gain.
    private static bool OnlyDirect(Role role) => role is Role.CathodeBias or Role.ScreenDropper or Role.SupplyDropper or Role.Decoupling or Role.Divider or Role.GridLeak or Role.GridStopper;

    // The old body had a limit of its own; a film body of the same watts may have a lower one.
    // Source: carbon composition sheet 2012 (250, 350, 500 V for 1/4, 1/2, 1 W and up).
    private (double?, string) Volts(Part part, Role role)
    {
        var watts = part.RatedWatts ?? 0.5;
        var body = watts < 0.4 ? 250 : watts < 0.9 ? 350 : 500;
        if (part.Value is not { } ohms || !(ohms > 0)) return (body, $"The old body's own limit, {Show.Number(body)} V.");
        var byPower = Math.Sqrt(watts * ohms);
        var volts = Math.Min(body, byPower);
        var stress = basis?.StressOf(part.Name)?.Volts;
        var computed = stress is null ? 0 : SignalRoom * stress.Worst;
        if (stress is not null && basis is { IsComplete: true } && !OnPulses(part))
            return (Math.Max(Math.Round(computed), 1), $"Computed: {Show.Volts(Math.Round(stress.Worst, 1))} across it when {stress.Moment}, and a quarter more for signals.");
        var seesSupply = role is Role.PlateLoad or Role.ScreenDropper or Role.TouchBarrier or Role.LineSeries or Role.SupplyDropper or Role.Divider or Role.Decoupling or Role.Timing or Role.Unknown;
        (double Volts, string Why) found =
            !seesSupply ? (Math.Min(volts, 250), "It sees no supply; any body will do.")
            : role is not Role.TouchBarrier and not Role.LineSeries && view.SupplyVolts is { } supply && supply < volts ? (supply, $"The supply's {Show.Volts(supply)} may stand on it before the valves draw.")
            : (Math.Round(volts, 1), volts < body ? $"Its old watts allowed {Show.Number(Math.Round(volts))} V and no more." : $"The old body's own limit, {Show.Number(body)} V: above {Show.Value(body * body / watts, Unit.Ohm)} the voltage decides, not the watts.");
        return computed > found.Volts ? (Math.Round(computed), $"Computed: {Show.Volts(Math.Round(stress!.Worst, 1))} across it when {stress.Moment}, and a quarter more for signals.") : found;
    }

    // Pulses of a line output stage are not in the direct solution.
    private bool OnPulses(Part part) => view.Ends(part) is var (a, b) && new[] { a, b }.Any(n => !view.IsEarthy(n) && !view.Supply.Contains(n)
        && view.Map.Nodes[n].Lugs.Any(l => view.MountOf(l) is Trade.Chassis.MountKind.Flyback));

    private static (ImmutableArray<NewKind>, string) Kinds(Part part, Role role, double watts)
    {
        var wound = part.KindAsWritten.Contains("wire", StringComparison.OrdinalIgnoreCase) || (part.Note?.Contains("wound", StringComparison.OrdinalIgnoreCase) ?? false);
        if (role == Role.LineSeries || watts > 5 || wound && watts >= 3)
            return ([NewKind.Wirewound, NewKind.MetalOxide], "Wirewound bears the surge at switch-on and the heat; keep it off wires.");
        return watts > 1
            ? ([NewKind.MetalOxide, NewKind.MetalFilm, NewKind.Wirewound], "Metal oxide runs hot without harm and does not burn; wirewound is wrong where radio frequency passes.")
            : ([NewKind.MetalFilm, NewKind.CarbonFilm, NewKind.MetalOxide, NewKind.MetalGlaze], "Film keeps its value; mind its lower working voltage and its dislike of surges.");
    }
}
