using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Why colours cannot be read by one form of a code.</summary>
/// <param name="Slot">Which colour, counted as written.</param>
/// <param name="Problem">A sentence.</param>
/// <param name="OfTable">True when the code's table has no such colour there; false when only no maker did it (zero first, impossible size).</param>
/// <param name="Good">How many of the colours have a meaning where they stand.</param>
internal sealed record Fault(int Slot, string Problem, bool OfTable, int Good);

/// <summary>Colours read by one form of one code.</summary>
internal sealed record Decoded(CodeLayout Layout, Arrangement Form, ImmutableArray<Colour?> Colours)
{
    /// <summary>In the base unit.</summary>
    public required double Value { get; init; }
    /// <summary>Tolerance in percent; null when not shown, or shown in picofarads.</summary>
    public double? Percent { get; init; }
    /// <summary>Tolerance, pF; only for small ceramics.</summary>
    public double? Picofarads { get; init; }
    public double? Volts { get; init; }
    public double? TempcoPpm { get; init; }
    public string? Class { get; init; }
    /// <summary>Belief in the type dot.</summary>
    public double TypeBelief { get; init; } = 1;
    /// <summary>What else the colours say, as sentences.</summary>
    public ImmutableArray<string> Says { get; init; } = [];
    public ImmutableArray<string> Doubts { get; init; } = [];

    public Tolerance? Tolerance =>
        Picofarads is { } pf ? Fraction(pf * 1e-12 / Value) : Percent is { } percent ? Fraction(percent / 100) : null;

    /// <summary>Tolerance in percent, however it is marked.</summary>
    public double? PercentOfValue => Picofarads is { } pf ? pf * 1e-12 / Value * 100 : Percent;

    // ±2 pF on 1.5 pF: a part cannot be less than nothing.
    private static Tolerance Fraction(double fraction) => Quantities.Tolerance.Between(Math.Min(1, fraction), fraction);
}

/// <summary>Reads colours by one form of a code: the only decoder, whatever the code.</summary>
internal static class Decoder
{
    /// <summary>Picofarads up to which a ceramic's tolerance is in picofarads.</summary>
    public const double PicofaradLimit = 10e-12;

    /// <param name="layout">The code.</param>
    /// <param name="form">One of its forms; as many slots as colours.</param>
    /// <param name="seen">Colours in the order of the slots; null for one that cannot be read: not in a figure or multiplier.</param>
    public static (Decoded? Decoded, Fault? Fault) Read(CodeLayout layout, Arrangement form, ImmutableArray<Colour?> seen)
    {
        var colours = layout.NoneIsBody ? Painted(form, seen) : seen;
        Fault? table = null, habit = null;
        var good = 0;
        for (var i = 0; i < colours.Length; i++)
        {
            var problem = colours[i] is { } colour ? Objection(layout, form.Slots[i], colour) : null;
            if (problem is null) good++;
            else table ??= new(i, problem, true, 0);
        }
        if (table is not null) return (null, table with { Good = good });

        decimal figures = 0;
        var exponent = layout.IsCapacitor ? -12 : 0;
        var digits = 0;
        var result = new Decoded(layout, form, colours) { Value = 0, Percent = form.ImpliedPercent, Volts = form.ImpliedVolts };
        var says = new List<string>();
        var doubts = new List<string>();
        var multiplierAt = 0;
        int? voltsTens = null;
        double? tempcoFigure = null;
        for (var i = 0; i < colours.Length; i++)
        {
            var slot = form.Slots[i];
            if (colours[i] is not { } colour)
            {
                doubts.Add($"{slot.Words} not readable");
                if (slot.Role == Role.Tolerance) result = result with { Percent = null };
                continue;
            }
            var row = layout.Table[colour];
            switch (slot.Role)
            {
                case Role.Type:
                    var type = layout.Types.First(t => t.Colour == colour);
                    result = result with { TypeBelief = type.Belief };
                    if (type.Doubt is not null) doubts.Add(type.Doubt);
                    break;
                case Role.Figure:
                    if (digits == 0 && layout.NotFirst.FirstOrDefault(n => n.Colour == colour).Code is { } other)
                        habit = new(i, $"a {colour.Name()} first dot belongs to the {other} code, not to '{layout.Title}'", false, good - 1);
                    else if (digits == 0 && row!.Figure == 0 && !layout.ZeroFirst)
                        habit = new(i, $"{colour.Name()} first: no maker starts a value with zero", false, good - 1);
                    digits++;
                    figures = figures * 10 + row!.Figure!.Value;
                    break;
                case Role.Multiplier:
                    exponent += row!.Exponent!.Value;
                    multiplierAt = i;
                    break;
                case Role.Tolerance:
                    result = result with { Percent = row?.Percent };
                    if (row is { PercentUnclear: true }) doubts.Add($"tolerance dot {colour.Name()}: no table explains it, tolerance unknown");
                    if (colour == Colour.Green && layout.Id.StartsWith("mica-mil", StringComparison.Ordinal)) doubts.Add("late military parts use green for ±0.5 %");
                    if (colour == Colour.Orange && layout.Id.StartsWith("mica-mil", StringComparison.Ordinal)) doubts.Add("orange for ±3 % is in the EIA table only");
                    break;
                case Role.Volts: result = result with { Volts = row!.Volts }; break;
                case Role.VoltsTens: voltsTens = row!.Figure!.Value; break;
                case Role.VoltsUnits: result = result with { Volts = voltsTens is { } tens ? (10 * tens + row!.Figure!.Value) * 100.0 : null }; break;
                case Role.Tempco: result = result with { TempcoPpm = row!.Tempco }; break;
                case Role.TempcoFigure: tempcoFigure = row!.TempcoFigure!.Value; break;
                case Role.TempcoMultiplier:
                    // Decimal, so that 2.2 × −1000 is −2200 and nothing beside it.
                    if (tempcoFigure is { } tempco) result = result with { TempcoPpm = tempco == 0 ? 0 : (double)((decimal)tempco * (decimal)row!.TempcoMultiplier!.Value) };
                    break;
                case Role.FailureRate:
                    if (row!.FailureRate is { } rate) says.Add($"Failure rate {Shown.Number(rate)} % per 1000 h.");
                    else doubts.Add(row.FailureWords!);
                    break;
                case Role.Class:
                    result = result with { Class = row!.Class };
                    says.Add($"Class {row.Class}: {row.ClassWords}.");
                    break;
                case Role.Temperatures: says.Add($"For {row!.Temperatures}."); break;
                case Role.Vibration: says.Add($"Vibration {row!.Vibration}."); break;
            }
        }
        if (habit is not null) return (null, habit);
        if (figures == 0) return (null, new(0, "all figures are zero", false, good - 1));

        var value = (double)(exponent >= 0 ? figures * Power(exponent) : figures / Power(-exponent));
        if (value < layout.Possible.Low * (1 - 1e-9) || value > layout.Possible.High * (1 + 1e-9))
            return (null, new(multiplierAt, $"{Shown.Value(value, layout.Unit)} is impossible for {layout.Title}", false, good - 1));
        // 0.5 pF written as 05 with a multiplier below one would be two ways to write one value: nobody did.
        if (layout.ZeroFirst && LeadingZero(layout, form, colours) && value >= PicofaradLimit)
            return (null, new(LeadingAt(form), $"{colours[LeadingAt(form)]!.Value.Name()} first: a leading zero is used below 10 pF only", false, good - 1));

        result = result with { Value = value };
        var toleranceAt = form.Slots.ToList().FindIndex(s => s.Role == Role.Tolerance);
        if (toleranceAt >= 0 && colours[toleranceAt] is { } tolerance && layout.Table == CodeTables.Ceramic)
        {
            var row = layout.Table[tolerance]!;
            var small = value <= PicofaradLimit * (1 + 1e-9);
            result = result with { Percent = small ? null : row.Percent, Picofarads = small ? row.Picofarads : null };
            if (result.Percent is null && result.Picofarads is null)
                return (null, new(toleranceAt, $"{tolerance.Name()} is no tolerance {(small ? "at 10 pF and below" : "above 10 pF")} in the code '{layout.Title}'", true, good - 1));
        }
        return (result with { Says = [.. says], Doubts = [.. doubts] }, null);
    }

    /// <summary>May this colour stand here? Null when it may, otherwise a sentence.</summary>
    public static string? Objection(CodeLayout layout, Slot slot, Colour colour)
    {
        var row = layout.Table[colour];
        var may = slot.Role switch
        {
            Role.Type => layout.Types.Any(t => t.Colour == colour),
            Role.Figure or Role.VoltsUnits => row?.Figure is not null,
            Role.VoltsTens => row?.Figure is > 0,
            Role.Multiplier => row?.Exponent is not null,
            Role.Tolerance => row is { Percent: not null } or { Picofarads: not null } or { PercentUnclear: true },
            Role.Volts => row?.Volts is not null,
            Role.Tempco => row?.Tempco is not null,
            Role.TempcoFigure => row?.TempcoFigure is not null,
            Role.TempcoMultiplier => row?.TempcoMultiplier is not null,
            Role.FailureRate => row is { FailureRate: not null } or { FailureWords: not null },
            Role.Class => row?.Class is not null,
            Role.Temperatures => row?.Temperatures is not null,
            _ => row?.Vibration is not null,
        };
        if (may) return null;
        var what = colour == Colour.None ? "a missing colour" : colour.Name();
        return slot.Role switch
        {
            Role.Figure => $"{what} cannot be a figure ({slot.Words}, {slot.Place})",
            Role.Type => $"{what} is not the first dot of the code '{layout.Title}': {string.Join(" or ", layout.Types.Where(t => t.Belief == 1).Select(t => t.Colour.Name()))} is",
            Role.Volts when colour == Colour.Black => $"black would be 0 V ({slot.Place})",
            _ => $"{what} has no meaning as {slot.Words} ({slot.Place}) in the code '{layout.Title}'",
        };
    }

    // Body-end-dot: paint that is not seen is paint on paint of its own colour.
    private static ImmutableArray<Colour?> Painted(Arrangement form, ImmutableArray<Colour?> seen) =>
        [.. seen.Select((c, i) => c == Colour.None && i > 0 && form.Slots[i].Role != Role.Tolerance ? seen[0] : c)];

    private static int LeadingAt(Arrangement form) => form.Slots.ToList().FindIndex(s => s.Role == Role.Figure);

    private static bool LeadingZero(CodeLayout layout, Arrangement form, ImmutableArray<Colour?> colours) =>
        colours[LeadingAt(form)] is { } first && layout.Table[first]?.Figure == 0;

    private static decimal Power(int exponent)
    {
        var power = 1m;
        for (var i = 0; i < exponent; i++) power *= 10;
        return power;
    }
}
