using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade;

namespace Lugbook.Output;

/// <summary>The JSON shape of a sheet.</summary>
internal static class SheetShape
{
    public static object Of(Book book, SheetResult sheet, BoundsResult? bounds = null) => new
    {
        Book = book.Name,
        book.Facts.Title,
        sheet.Reason,
        sheet.LineVolts,
        Meter = sheet.Meter.Name,
        Lines = sheet.Lines.Select(l => new
        {
            l.Lug, l.Valve, l.What, Kind = l.IsAc ? "ac" : "dc", l.Volts, HealthyLow = l.Low, HealthyHigh = l.High, l.RippleRms,
            MeterShows = l.Meter?.Shown, MeterRange = l.Meter?.Range, MeterUncertainty = l.Meter?.Uncertainty, MeterLow = l.MeterSpread?.Low, MeterHigh = l.MeterSpread?.High,
            l.ChartVolts, l.ChartExpected, VoltsAgreement = Word(l.VoltsAgreement), l.Unpredictable, l.Setting,
            Ohms = Finite(l.Ohms), NoPath = l.Ohms is double.PositiveInfinity, ReversedOhms = Finite(l.ReversedOhms), OhmsLow = Finite(l.OhmsLow), OhmsHigh = Finite(l.OhmsHigh),
            SettlingSeconds = Finite(l.SettlingSeconds), ChartOhms = Finite(l.ChartOhms), OhmsAgreement = Word(l.OhmsAgreement), l.Note,
        }),
        Parts = sheet.Parts.Select(p => new { p.Position, Volts = Of(p.Volts), Watts = Of(p.Watts), p.RippleAmperes, p.RatedVolts, p.RatedWatts, p.Over }),
        Valves = sheet.Valves.Select(v => new { v.Valve, v.Section, v.Electrode, v.Unit, Normal = v.Amount.Normal, Worst = v.Amount.Worst, v.Amount.Moment, v.Limit, v.Over }),
        Bears = bounds?.Positions.Select(b => new { b.Position, LeakOhms = Finite(b.LeakOhms), b.LeakLimit, b.Down, b.Up, b.IsKnown, b.Sentence }),
        sheet.Moments,
        sheet.Unknowns,
        sheet.Remarks,
        Cautions = new[] { SheetWords.BeforeVolts, SheetWords.BeforeOhms },
    };

    private static string? Word(Agreement agreement) => agreement == Agreement.None ? null : SheetWords.Of(agreement);
    private static double? Finite(double? x) => x is { } v && double.IsFinite(v) ? v : null;
    private static object? Of(Stress? stress) => stress is null ? null : new { stress.Normal, stress.Worst, stress.Moment };
}
