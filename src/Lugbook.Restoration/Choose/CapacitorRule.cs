using Lugbook.Restoration.Map;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Choose;

/// <summary>What a new capacitor must be: window, volts, ripple. Facts: the project's notes on replacement practice, mostly common practice without a source; stresses from the solved circuit.</summary>
internal sealed class CapacitorRule(MapResult map, CircuitView view, ChoosePolicy policy, ChooseBasis? basis)
{
    public Requirement Of(Part part, RoleFinding role, SafetyClass safety, string? safetyReason)
    {
        var (kinds, kindReason) = CapacitorKinds.Of(part, role.Role, safety);
        var value = part.Value is > 0 and { } farads ? Window(part, farads, role, safety) : null;
        var (volts, voltsReason) = Volts(part, role.Role, kinds[0], safety);
        var ripple = kinds[0] == NewKind.Electrolytic && basis?.StressOf(part.Name)?.RippleAmperes is > 1e-3 and { } amperes ? amperes : (double?)null;
        var (celsius, celsiusReason) = CategoryTemperature.Of(Unit.Farad, kinds[0] == NewKind.Electrolytic, HotBeside(part));
        return new()
        {
            Unit = Unit.Farad,
            Value = value,
            VoltsAtLeast = volts,
            VoltsReason = voltsReason,
            LineVoltsAtLeast = safety == SafetyClass.None ? null : Math.Round(1.1 * SafetyRule.Lines(map.Book.Facts).Max(l => l.Volts), 1),
            Kinds = kinds,
            KindReason = kindReason,
            SafetyClass = safety,
            SafetyReason = safetyReason,
            // Where the value sets a frequency, a narrow window is of no use when the part itself may lie outside it.
            TolerancePercentAtMost = safety != SafetyClass.None ? null : role.Role is Role.Tone or Role.Feedback ? Math.Round(100 * Half(part), 1) : role.Role is Role.Tuned or Role.Timing ? 5 : null,
            Polarity = kinds[0] == NewKind.Electrolytic ? PolarityOf(part) : null,
            RippleAmperes = ripple,
            RippleHertz = ripple is null ? null : SafetyRule.Lines(map.Book.Facts).Min(l => l.Hertz) * (view.IsFullWave ? 2 : 1),
            CelsiusAtLeast = celsius,
            CelsiusReason = celsiusReason,
            LugDistanceMm = LugDistance.Of(map, part),
        };
    }

    private ValueWindow Window(Part part, double farads, RoleFinding role, SafetyClass safety)
    {
        if (safety is SafetyClass.Y1 or SafetyClass.Y2) return TouchWindow(farads);
        var marked = part.Tolerance;
        double down(double otherwise) => part.Kind == PartKind.Electrolytic ? 0.1 : Math.Min(marked?.Minus ?? otherwise, 0.2);
        ValueWindow Window(double low, double high, string reason) => new(farads * (1 - low), farads, farads * (1 + high), reason);
        switch (role.Role)
        {
            case Role.Reservoir:
                return ReservoirWindow(farads, role);
            case Role.Doubler or Role.Filter or Role.CathodeBypass when part.Kind == PartKind.Electrolytic:
                return Window(0.1, 1, "−10 to +100 %: the spread of the old part, and more does no harm here.");
            case Role.CathodeBypass or Role.Decoupling or Role.ScreenBypass or Role.HeaterBypass or Role.RfBypass or Role.Filter:
                return Window(Math.Max(0.1, down(0.2)), 1, "A plain bypass: down to the old tolerance, up to twice the mark.");
            case Role.Tone or Role.Feedback when Half(part) is > 0.05 and var half:
                return Window(half, half, $"Within ±{Show.Number(half * 100)} %, half the old tolerance: it sets the sound, and no finer than the maker's own part did.");
            case Role.Tone or Role.Feedback or Role.Timing:
                return Window(Math.Min(0.05, down(0.05)), Math.Min(0.05, marked?.Plus ?? 0.05), "Within ±5 %: the value sets a frequency.");
            case Role.Tuned:
                var fine = Math.Clamp(Math.Min(marked?.Minus ?? 0.02, marked?.Plus ?? 0.02), 0.01, 0.05);
                return Window(fine, fine, $"Within ±{Show.Number(fine * 100)} %: it is part of a tuned circuit.");
            case Role.Coupling or Role.ControlVoltageFilter or Role.PlateBypass or Role.PlateToPlate or Role.AcrossLine or Role.Boost or Role.ArcSuppression:
                return Window(Math.Max(0.1, down(0.2)), 0.25, "Down to the old tolerance, up to +25 %: unnoticed here.");
        }
        if (part.Kind == PartKind.Electrolytic)
            return Window(0.1, 0.5, "−10 to +50 %: within the spread of the old part; its place is not known, so not more.");
        var (minus, plus) = marked is { } t ? (t.Minus, t.Plus) : Assumed(part.Kind);
        return Window(Math.Clamp(minus, 0.05, 0.2), Math.Clamp(plus, 0.05, 0.25), marked is null
            ? "Its role is not known: the tolerance usual for such parts, within which any part served here."
            : "Its role is not known: the marked tolerance, within which any part served here.");
    }

    // The other half is left to the new part's own tolerance.
    private static double Half(Part part)
    {
        var (minus, plus) = part.Tolerance is { } t ? (t.Minus, t.Plus) : Assumed(part.Kind);
        return Math.Clamp(Math.Min(minus, plus) / 2, 0.05, 0.1);
    }

    private static (double Minus, double Plus) Assumed(PartKind kind) => kind is PartKind.Mica or PartKind.SilverMica ? (0.1, 0.1) : (0.2, 0.2);

    private ValueWindow TouchWindow(double farads)
    {
        var limit = SafetyRule.LargestFarads(map.Book.Facts, policy.TouchMilliamperes);
        var high = Math.Min(farads, Math.Min(limit, policy.UsualTouchFarads));
        var old = SafetyRule.Currents(map.Book.Facts, farads).Max(c => c.Milliamperes);
        var reason = high < farads
            ? $"Not above {Show.Value(high, Unit.Farad)}: the old {Show.Value(farads, Unit.Farad)} passes {Show.Number(Math.Round(old, 2))} mA through a hand{(old > policy.TouchMilliamperes ? $", above the limit of {Show.Number(policy.TouchMilliamperes)} mA" : "")}; {Show.Value(high, Unit.Farad)} is usual."
            : "Not above the mark: here a smaller value is the safer error.";
        return new(high * 0.6, high, high, reason);
    }

    private ValueWindow ReservoirWindow(double farads, RoleFinding role)
    {
        var output = view.Rectifiers.FirstOrDefault(r => role.Evidence.Contains($"output of {r.Value.Name} (", StringComparison.Ordinal)).Value;
        if (output is { IsValve: false } || role.Evidence.Contains("delivers minus", StringComparison.Ordinal)) return new(farads * 0.9, farads, farads * 2, "−10 to +100 %: no valve limits the first capacitor here.");
        var limit = CircuitView.Limit(policy.RectifierLimits, output?.Type);
        if (limit?.MaxInputFarads is { } most)
            return farads > most * (1 + 1e-9)
                ? new(farads * 0.9, farads, farads, $"Not above the mark: the handbook allows {limit.Type} {Show.Value(most, Unit.Farad)}, and the maker went beyond it already.")
                : new(farads * 0.9, farads, Math.Min(farads * 2, most), $"Not above {Show.Value(Math.Min(farads * 2, most), Unit.Farad)}: the handbook allows {limit.Type} {Show.Value(most, Unit.Farad)} as first capacitor.");
        var high = Math.Max(farads, Math.Min(farads * 1.5, 47e-6));
        return new(farads * 0.9, farads, high, $"Not above {Show.Value(high, Unit.Farad)}: the limit of this rectifier valve is not known, so at most half as much again, and 47 µF.");
    }

    private (double?, string) Volts(Part part, Role role, NewKind kind, SafetyClass safety)
    {
        var mark = part.RatedVolts;
        var said = mark is { } m ? $"the old mark of {Show.Volts(m)}" : "no old mark is entered";
        if (safety != SafetyClass.None) return (mark, $"The class decides; besides, {said}.");
        var (floor, why) = Floor(part, role, kind, mark);
        if (kind is NewKind.Film or NewKind.Polypropylene)
        {
            // One stock value takes the place of 400 and of 600 V paper; up to 200 V paper a smaller body will do.
            var stock = mark is <= 200 ? 250 : 630;
            if (stock > floor && (mark is null || stock >= mark)) (floor, why) = (stock, $"film of {Show.Number(stock)} V is today's stock for such marks{(why.StartsWith("computed", StringComparison.Ordinal) ? "; " + why : "")}");
        }
        if (mark is null && floor <= 0) return (null, "Neither the old rating nor the place tells the voltage.");
        return (Math.Max(mark ?? 0, floor), $"At least {said}; {why}.");
    }

    /// <summary>The least that the place asks for, whatever the mark.</summary>
    private (double Volts, string Why) Floor(Part part, Role role, NewKind kind, double? mark)
    {
        var supply = view.SupplyVolts;
        var byRole = role switch
        {
            Role.CathodeBypass => (63.0, "63 V is usual for cathodes"),
            Role.Reservoir or Role.Filter when view.WindingPeakVolts is { } peak && mark is null or >= 100 && OnSupply(part) => (Math.Ceiling(peak), $"before the valves draw, the high-voltage winding's peak of {Show.Volts(Math.Ceiling(peak))} stands here, and more where the line is higher than the sheet's"),
            Role.Reservoir or Role.Filter or Role.Doubler => (0, "the supply's own capacitors tell nothing more"),
            Role.Boost => (Math.Max(1000, mark * 1.5 ?? 0), "boost and pulses ask for pulse-grade film of 1000 V and more"),
            Role.PlateToPlate => (1000, "between plates the swing adds to the supply: 1000 V and more"),
            Role.PlateBypass when kind == NewKind.Polypropylene => (1000, "at a plate that feeds a winding the swing adds to the supply: 1000 V and more"),
            Role.Coupling or Role.ScreenBypass or Role.PlateBypass or Role.Decoupling or Role.Timing when !Computes(part) => (supply ?? 0, supply is { } s ? $"before the valves draw, the supply's {Show.Volts(s)} may stand here" : "the supply is not known"),
            _ => (0, "its role asks for no more"),
        };
        if (basis?.StressOf(part.Name)?.Volts is not { } stress) return byRole;
        var swing = SwingAt(part, role);
        var worst = Math.Ceiling(stress.Worst + swing);
        var words = $"computed: {Show.Volts(Math.Round(stress.Worst, stress.Worst < 10 ? 1 : 0))} across it when {stress.Moment}{(swing > 0 ? $", and the plate swings by {Show.Volts(Math.Round(swing))} more" : "")}";
        return worst >= byRole.Item1 ? (worst, words) : byRole with { Item2 = byRole.Item1 > 0 ? $"{byRole.Item2}; {words}" : words };
    }

    // A resistor on one of its lugs that turns a watt and more to heat warms lug and body (common practice, no source).
    private string? HotBeside(Part part)
    {
        // A section of a can does not stand on its lugs.
        if (basis is null || part.Leads.IsEmpty || part.Group is not null) return null;
        var hottest = map.Book.Parts.Where(p => p.Kind == PartKind.Resistor && p.Id != part.Id && p.Leads.Any(l => part.Leads.Any(own => string.Equals(own.Lug, l.Lug, StringComparison.OrdinalIgnoreCase))))
            .Select(p => (p.Name, Watts: basis.StressOf(p.Name)?.Watts?.Normal ?? 0)).Where(p => p.Watts >= 1).OrderByDescending(p => p.Watts).FirstOrDefault();
        return hottest.Name is null ? null : $"{hottest.Name} on the same lug turns {Show.Number(Math.Round(hottest.Watts, 1))} W to heat";
    }

    private bool OnSupply(Part part) => view.Ends(part) is var (a, b) && (view.Supply.Contains(a) || view.Supply.Contains(b));

    // Only where every value is entered may the computed stress stand in for the supply's rating.
    private bool Computes(Part part) => basis is { IsComplete: true } && basis.StressOf(part.Name)?.Volts is not null;

    // A plate that feeds a winding swings up by as much as it may swing down: nearly its own direct voltage. Common practice, no source.
    private double SwingAt(Part part, Role role)
    {
        if (role is not (Role.PlateBypass or Role.PlateToPlate or Role.Tone) || basis?.Solved.Point is not { } point || view.Ends(part) is not var (a, b)) return 0;
        return new[] { a, b }.Where(n => view.PinsAt(n, Trade.Valves.ElectrodeKind.Plate).Any() && view.At(n).Any(x => x.Part.Kind == PartKind.Winding)).Sum(n => Math.Max(point.Volts[n], 0));
    }

    private static Polarity PolarityOf(Part part) => part.PlusLug is { } plus
        ? new(plus, part.MinusLug, part.MinusLug is { } minus ? $"Plus to {plus}, minus to {minus}." : $"Plus to {plus}.")
        : new(null, null, "Which lead is plus is not entered: read it from the old part before it comes off, and check it with the sheet's voltages.");
}
