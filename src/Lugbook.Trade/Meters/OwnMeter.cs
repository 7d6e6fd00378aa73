using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Meters;

/// <summary>A meter of the user's own: from its ranges as typed, and a copy of one that ships to begin with.</summary>
public static class OwnMeter
{
    // What is not stated: 0.5 V across an open ohmmeter, 10 MΩ, 120 Hz are what digital hand meters have (common practice, no source).
    private const double OhmsVolts = 0.5, InputOhms = 10e6, FaradsHertz = 120;

    /// <summary>The meter; never fails, however little its rows tell: what they do not tell it cannot measure.</summary>
    public static Meter Of(string name, IReadOnlyList<MeterLine> lines)
    {
        MeterLine[] On(MeterFunction function) => [.. lines.Where(l => l.Function == function && l.Top > 0 && double.IsFinite(l.Top)).OrderBy(l => l.Top)];
        MeterScale? Scale(MeterFunction function) => On(function) is { Length: > 0 } rows
            ? new([.. rows.Select(l => new MeterRange(l.Top, Share(l.ReadingPercent), Share(l.FullScalePercent), l.Digits ?? 0, l.Counts ?? 0))]) : null;
        double? First(Func<MeterLine, double?> of, params MeterFunction[] functions) => lines.Where(l => functions.Contains(l.Function)).Select(of).FirstOrDefault(x => x is > 0);
        var pointer = On(MeterFunction.PointerOhms);
        var perVolt = First(l => l.OhmsPerVolt, MeterFunction.Volts, MeterFunction.AcVolts);
        return new()
        {
            Name = name,
            Description = lines.Select(l => l.Note).FirstOrDefault(n => !string.IsNullOrWhiteSpace(n)) is { } note ? $"{name}: {note}" : $"{name}, your own",
            OhmsPerVolt = perVolt,
            InputOhms = perVolt is null ? First(l => l.InputOhms, MeterFunction.Volts, MeterFunction.AcVolts) ?? InputOhms : null,
            Volts = Scale(MeterFunction.Volts) ?? MeterScale.None,
            AcVolts = Scale(MeterFunction.AcVolts) ?? MeterScale.None,
            Ohms = Scale(MeterFunction.Ohms),
            // One error of the arc for all ranges: the widest that is stated.
            PointerOhms = pointer.Length > 0 ? new([.. pointer.Select(l => l.Top)], pointer.Max(l => Math.Max(Share(l.FullScalePercent), Share(l.ReadingPercent)))) : null,
            OhmsTestVolts = First(l => l.TestVolts, MeterFunction.Ohms, MeterFunction.PointerOhms) ?? OhmsVolts,
            Farads = Scale(MeterFunction.Farads),
            FaradsHertz = First(l => l.Hertz, MeterFunction.Farads) ?? FaradsHertz,
            Insulation = Scale(MeterFunction.Insulation),
            InsulationVolts = First(l => l.TestVolts, MeterFunction.Insulation) ?? 0,
        };
    }

    /// <summary>The rows that make a meter, under another name: a copy to change.</summary>
    public static ImmutableArray<MeterLine> Copy(Meter meter, string name)
    {
        var lines = ImmutableArray.CreateBuilder<MeterLine>();
        void Add(MeterFunction function, MeterScale? scale, Func<MeterLine, MeterLine>? whole = null)
        {
            foreach (var range in scale?.Ranges ?? [])
            {
                MeterLine line = new()
                {
                    Name = name, Function = function, Top = range.Top, ReadingPercent = Percent(range.ReadingShare), FullScalePercent = Percent(range.FullScaleShare),
                    Digits = range.Digits > 0 ? range.Digits : null, Counts = range.Counts > 0 ? range.Counts : null,
                };
                lines.Add(whole is null ? line : whole(line));
            }
        }
        MeterLine Loading(MeterLine line) => line with { InputOhms = meter.InputOhms, OhmsPerVolt = meter.OhmsPerVolt };
        MeterLine Open(MeterLine line) => line with { TestVolts = meter.OhmsTestVolts };
        Add(MeterFunction.Volts, meter.Volts, Loading);
        Add(MeterFunction.AcVolts, meter.AcVolts, Loading);
        Add(MeterFunction.Ohms, meter.Ohms, Open);
        Add(MeterFunction.PointerOhms, meter.PointerOhms is { } pointer ? new(pointer.MidScales, 0, pointer.ArcShare) : null, Open);
        Add(MeterFunction.Farads, meter.Farads, l => l with { Hertz = meter.FaradsHertz });
        Add(MeterFunction.Insulation, meter.Insulation, l => l with { TestVolts = meter.InsulationVolts });
        return lines.ToImmutable();
    }

    /// <summary>What of a row cannot be, each with what to do; empty when all is well.</summary>
    public static IEnumerable<Complaint> Faults(MeterLine line)
    {
        var place = $"{line.Name}, {MeterWords.Of(line.Function)} {Notation.Print(line.Top, line.Unit)}";
        Complaint Of(string text, string problem, string remedy) => new(place, text, 0, problem, remedy);
        static string Text(double? x) => x?.ToString(CultureInfo.InvariantCulture) ?? "";
        if (!(line.Top > 0 && line.Top < 1e15)) yield return Of(Text(line.Top), "a range needs a full scale above nought.", "Write the highest figure that the range shows: 200, 2k, 20M.");
        foreach (var (percent, what) in new[] { (line.ReadingPercent, "per cent of the reading"), (line.FullScalePercent, line.Function == MeterFunction.PointerOhms ? "per cent of the arc" : "per cent of full scale") })
            if (percent is not (null or (>= 0 and <= 50))) yield return Of(Text(percent), $"an error of so many {what} is not a meter's.", "Write per cent as the manual does: 0.8, from 0 to 50.");
        if (line.Digits is not (null or (>= 0 and <= 1000))) yield return Of(Text(line.Digits), "so many digits cannot be.", "Write the digits that the manual adds: 3, from 0 to 1000.");
        if (line.Counts is not (null or (>= 20 and <= 1e8))) yield return Of(Text(line.Counts), "so many steps in a range cannot be.", "Write where the display ends: 2000 for 1999, 6000 for 5999.");
        if (line.Digits is > 0 && line.Counts is null) yield return Of(Text(line.Digits), "how much a digit is cannot be told.", "Write into counts where the display ends: 2000 for 1999, 6000 for 5999.");
        if ((line.ReadingPercent ?? 0) + (line.FullScalePercent ?? 0) <= 0 && !(line.Digits is > 0)) yield return Of("", "it has no error.", "Write the accuracy that the manual states: per cent of the reading, of full scale, or digits; no meter is exact.");
        if (line.TestVolts is not (null or (> 0 and <= 10_000))) yield return Of(Text(line.TestVolts), "this is not a test voltage.", "Write the volts across the open leads: 0.2 to 10,000.");
        if (line.InputOhms is not (null or (>= 100 and <= 1e15))) yield return Of(Text(line.InputOhms), "this is not a meter's input resistance.", "Write it in ohms: 10M.");
        if (line.OhmsPerVolt is not (null or (>= 10 and <= 1e6))) yield return Of(Text(line.OhmsPerVolt), "this is not a pointer instrument's sensitivity.", "Write ohms a volt as its dial does: 20000.");
        if (line is { InputOhms: not null, OhmsPerVolt: not null }) yield return Of(Text(line.OhmsPerVolt), "a meter has either ohms a volt or a fixed input.", "Clear one of the two.");
        if (line.Hertz is not (null or (>= 1 and <= 1e7))) yield return Of(Text(line.Hertz), "this is not a frequency at which capacitance is measured.", "Write hertz: 120 or 1000.");
    }

    private static double Share(double? percent) => percent is { } p and > 0 && double.IsFinite(p) ? p / 100 : 0;
    private static double? Percent(double share) => share > 0 ? Math.Round(share * 100, 10) : null;
}
