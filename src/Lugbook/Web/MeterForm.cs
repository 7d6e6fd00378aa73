using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Web;

/// <summary>The form of a meter of the user's own: ranges that are equally good share a line.</summary>
internal sealed partial class MeterForm
{
    /// <summary>Ranges of one function and one accuracy, as text.</summary>
    internal sealed class Group
    {
        public MeterFunction Function { get; set; }
        public string? Ranges { get; set; }
        public string? ReadingPercent { get; set; }
        public string? FullScalePercent { get; set; }
        public string? Digits { get; set; }
        public string? Counts { get; set; }
    }

    public string? Name { get; set; }
    public string? Note { get; set; }
    public string? InputOhms { get; set; }
    public string? OhmsPerVolt { get; set; }
    public string? OhmsVolts { get; set; }
    public string? InsulationVolts { get; set; }
    public string? Hertz { get; set; }
    public List<Group> Groups { get; } = [];

    /// <summary>Fills the form from a meter's rows.</summary>
    public static MeterForm Of(IReadOnlyList<MeterLine> lines)
    {
        string? First(Func<MeterLine, double?> of, Func<MeterLine, bool> which) => Text(lines.Where(which).Select(of).FirstOrDefault(x => x is not null));
        var form = new MeterForm
        {
            Name = lines.Count > 0 ? lines[0].Name : null, Note = lines.Select(l => l.Note).FirstOrDefault(n => n is not null),
            InputOhms = lines.Select(l => l.InputOhms).FirstOrDefault(x => x is not null) is { } input ? Print(input, Unit.Ohm) : null,
            OhmsPerVolt = First(l => l.OhmsPerVolt, _ => true),
            OhmsVolts = First(l => l.TestVolts, l => l.Function is MeterFunction.Ohms or MeterFunction.PointerOhms),
            InsulationVolts = First(l => l.TestVolts, l => l.Function == MeterFunction.Insulation),
            Hertz = First(l => l.Hertz, _ => true),
        };
        foreach (var line in lines.OrderBy(l => l.Function).ThenBy(l => l.Top))
        {
            var group = new Group { Function = line.Function, ReadingPercent = Text(line.ReadingPercent), FullScalePercent = Text(line.FullScalePercent), Digits = Text(line.Digits), Counts = Text(line.Counts) };
            var range = Print(line.Top, line.Unit);
            if (form.Groups.LastOrDefault() is { } last && (last.Function, last.ReadingPercent, last.FullScalePercent, last.Digits, last.Counts) == (group.Function, group.ReadingPercent, group.FullScalePercent, group.Digits, group.Counts)) last.Ranges += $"; {range}";
            else form.Groups.Add(group);
            if (form.Groups[^1].Ranges is null) form.Groups[^1].Ranges = range;
        }
        return form;
    }

    /// <summary>The meter's rows; or what is wrong, and then none.</summary>
    /// <param name="taken">Names that other meters have.</param>
    public (ImmutableArray<MeterLine> Lines, ImmutableArray<Complaint> Complaints) Read(IEnumerable<string> taken)
    {
        var wrong = ImmutableArray.CreateBuilder<Complaint>();
        var name = Name?.Trim() ?? "";
        if (name.Length is 0 or > 60) wrong.Add(new("Name", name, 0, "the meter needs a name of at most 60 letters.", "Write what stands on it."));
        else if (taken.Contains(name, StringComparer.OrdinalIgnoreCase)) wrong.Add(new("Name", name, 0, "another meter has this name.", "Choose another name."));
        double? Number(string place, string? text, string remedy)
        {
            if (string.IsNullOrWhiteSpace(text)) return null;
            if (double.TryParse(text.Trim().TrimEnd('%', ' ').Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)) return number;
            wrong.Add(new(place, text, 0, "this is not a number.", remedy));
            return null;
        }
        double? input = null;
        if (!string.IsNullOrWhiteSpace(InputOhms))
        {
            if (Notation.TryParse(InputOhms, Unit.Ohm, out var ohms, out var complaint, MegHabit.Million)) input = ohms;
            else wrong.Add(complaint! with { Place = "Input resistance" });
        }
        var perVolt = Number("Ohms a volt", OhmsPerVolt, "Write it as the dial does: 20000.");
        var ohmsVolts = Number("Volts across the open ohmmeter", OhmsVolts, "Write volts: 0.5.");
        var insulationVolts = Number("Volts of the insulation test", InsulationVolts, "Write volts: 250.");
        var hertz = Number("Frequency", Hertz, "Write hertz: 120.");
        var lines = ImmutableArray.CreateBuilder<MeterLine>();
        foreach (var group in Groups.Where(g => !string.IsNullOrWhiteSpace(g.Ranges)))
        {
            var place = MeterWords.Of(group.Function);
            var (reading, full, digits, counts) = (Number($"{place}, % of reading", group.ReadingPercent, "Write per cent: 0.8."), Number($"{place}, % of full scale", group.FullScalePercent, "Write per cent: 3."),
                Number($"{place}, digits", group.Digits, "Write the digits that the manual adds: 3."), Number($"{place}, counts", group.Counts, "Write where the display ends: 2000."));
            foreach (var range in Between().Split(group.Ranges!).Where(r => r.Length > 0))
            {
                if (!Notation.TryParse(range, MeterLine.UnitOf(group.Function), out var top, out var complaint, MegHabit.Million))
                {
                    wrong.Add(complaint! with { Place = $"{place}, ranges" });
                    continue;
                }
                var isVolts = group.Function is MeterFunction.Volts or MeterFunction.AcVolts;
                lines.Add(new()
                {
                    Name = name, Function = group.Function, Top = top, ReadingPercent = reading, FullScalePercent = full, Digits = digits, Counts = counts,
                    TestVolts = group.Function switch { MeterFunction.Ohms or MeterFunction.PointerOhms => ohmsVolts, MeterFunction.Insulation => insulationVolts, _ => null },
                    InputOhms = isVolts ? input : null, OhmsPerVolt = isVolts ? perVolt : null, Hertz = group.Function == MeterFunction.Farads ? hertz : null,
                    Note = lines.Count == 0 && !string.IsNullOrWhiteSpace(Note) ? Note.Trim() : null,
                });
            }
        }
        if (wrong.Count == 0 && lines.Count == 0) wrong.Add(new("Ranges", "", 0, "the meter has no range.", "Write at least one: for ohms 200; 2k; 20k."));
        if (wrong.Count == 0) wrong.AddRange(lines.SelectMany(OwnMeter.Faults).DistinctBy(c => (c.Problem, c.Text)));
        return wrong.Count == 0 ? (lines.ToImmutable(), []) : ([], wrong.ToImmutable());
    }

    private static string? Text(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
    private static string Print(double value, Unit unit) => Notation.Print(value, unit, figures: 6).Replace(" ", "", StringComparison.Ordinal);

    // Not a comma alone: it may be a decimal one.
    [GeneratedRegex(@"\s*;\s*|,\s+|(?<=[A-Za-zΩµ0-9])\s+(?=\d)")] private static partial Regex Between();
}
