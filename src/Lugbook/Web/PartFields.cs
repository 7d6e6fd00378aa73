using System.Globalization;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Web;

/// <summary>A part as a form: every field a text that the user may write as the trade does.</summary>
internal static class PartFields
{
    /// <summary>One field of the form.</summary>
    public sealed class Field(string key, string label, string? text)
    {
        public string Key { get; } = key;
        public string Label { get; } = label;
        public string? Text { get; set; } = text;
    }

    /// <summary>The form of a part.</summary>
    public static List<Field> Of(Part part) =>
    [
        new("name", "Reference", part.Name),
        new("kind", "Kind", part.KindAsWritten),
        new("marked", "Marked", part.Marked),
        new("value", "Value", part is { Value: { } value, Unit: { } unit } ? Notation.Print(value, unit) : null),
        new("volts", "Rated volts", Number(part.RatedVolts)),
        new("watts", "Rated watts", Number(part.RatedWatts)),
        new("tolerance", "Tolerance, %", part.Tolerance is { } t ? t.IsSymmetric ? Number(t.Plus * 100) : $"-{Number(t.Minus * 100)} +{Number(t.Plus * 100)}" : null),
        new("a", "Lead a on lug", part.LeadA),
        new("b", "Lead b on lug", part.LeadB),
        new("c", "Lead c (slider) on lug", part.LeadC),
        new("plus", "Lead that is + (a or b)", part.PlusLead?.ToString()),
        new("group", "Shared body", part.Group),
        new("code", "Bands or symbol", part.Code),
        new("note", "Note", part.Note),
    ];

    /// <summary>Reads the form back; a part, or all complaints and no part.</summary>
    public static (Part? Part, IReadOnlyList<Complaint> Complaints) Read(Part part, IReadOnlyList<Field> fields)
    {
        var complaints = new List<Complaint>();
        var texts = fields.ToDictionary(f => f.Key, f => string.IsNullOrWhiteSpace(f.Text) ? null : f.Text.Trim());
        if (texts["name"] is null) complaints.Add(new("Reference", "", 0, "a part needs a name", "Write a reference such as C7."));
        if (texts["kind"] is null) complaints.Add(new("Kind", "", 0, "a part needs a kind", "Write resistor, paper, mica, electrolytic, valve …"));
        var kind = PartKinds.Of(texts["kind"]);
        var unit = PartKinds.UnitOf(kind) ?? part.Unit;
        double? value = null;
        if (texts["value"] is { } valueText)
        {
            if (unit is null) complaints.Add(new("Value", valueText, 0, $"a {texts["kind"]} has no value", "Empty this field, or write it as the note."));
            else if (Notation.TryParse(valueText, unit.Value, out var read, out var complaint)) value = read;
            else complaints.Add(complaint! with { Place = "Value" });
        }
        var (volts, watts) = (Positive("Rated volts", texts["volts"], complaints), Positive("Rated watts", texts["watts"], complaints));
        var tolerance = Tolerant(texts["tolerance"], complaints);
        var plus = texts["plus"]?.ToLowerInvariant();
        if (plus is not (null or "a" or "b")) complaints.Add(new("Lead that is +", texts["plus"]!, 0, "only lead a or b can be +", "Write a or b, or leave it empty."));
        if (complaints.Count > 0) return (null, complaints);
        return (part with
        {
            Name = texts["name"]!, KindAsWritten = texts["kind"]!, Marked = texts["marked"], Value = value, Unit = unit,
            RatedVolts = volts, RatedWatts = watts, Tolerance = tolerance,
            LeadA = texts["a"], LeadB = texts["b"], LeadC = texts["c"], PlusLead = plus?[0],
            Group = texts["group"], Code = texts["code"], Note = texts["note"],
        }, []);
    }

    private static double? Positive(string place, string? text, List<Complaint> complaints)
    {
        if (text is null) return null;
        if (double.TryParse(text.TrimEnd('V', 'v', 'W', 'w', ' ').Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            && number > 0 && double.IsFinite(number)) return number;
        complaints.Add(new(place, text, 0, "this is not a number above 0", "Write it in figures: 400."));
        return null;
    }

    private static Tolerance? Tolerant(string? text, List<Complaint> complaints)
    {
        if (text is null) return null;
        var words = text.Replace("%", " ", StringComparison.Ordinal).Replace("±", " ", StringComparison.Ordinal).Replace('−', '-').Replace("+", " +", StringComparison.Ordinal)
            .Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var numbers = words.Select(w => double.TryParse(w, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) ? n : double.NaN).ToArray();
        try
        {
            if (numbers.Length == 1) return Tolerance.Percent(numbers[0]);
            if (numbers.Length == 2) return Tolerance.Between(-numbers.Min() / 100, numbers.Max() / 100);
        }
        catch (ArgumentOutOfRangeException)
        {
            // Falls through to the complaint.
        }
        complaints.Add(new("Tolerance, %", text, 0, "this is not a tolerance", "Write 20 for ±20 %, or -10 +100."));
        return null;
    }

    private static string? Number(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
}
