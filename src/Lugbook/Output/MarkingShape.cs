using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Output;

/// <summary>The JSON shape of a reading.</summary>
internal static class MarkingShape
{
    public static object Of(string marking, MarkingResult result) => new
    {
        Marking = marking,
        Meanings = result.Meanings.Select(Of),
        Complaint = result.Complaint is null ? null : Of(result.Complaint),
    };

    public static object Of(Meaning meaning) => new
    {
        meaning.Value,
        Unit = meaning.Unit,
        Text = MeaningWords.Value(meaning),
        Sections = meaning.Sections.Select(s => new { s.Value, s.RatedVolts }),
        Tolerance = meaning.Tolerance is { } t ? Of(t) : null,
        meaning.RatedVolts,
        VoltsAreAc = meaning.VoltsAreAc ? true : (bool?)null,
        meaning.RatedWatts,
        SafetyClass = meaning.SafetyClass == SafetyClass.None ? (SafetyClass?)null : meaning.SafetyClass,
        meaning.TempcoPpm,
        meaning.Dielectric,
        meaning.Code,
        meaning.Share,
        meaning.Reason,
        meaning.Doubts,
    };

    public static object Of(Tolerance tolerance) => new { MinusPercent = Percent(tolerance.Minus), PlusPercent = Percent(tolerance.Plus) };

    public static object Of(Complaint complaint) => new { complaint.Place, complaint.Text, complaint.At, complaint.Problem, complaint.Remedy };

    // 0.07 × 100 is not quite 7 in binary; a program should read 7.
    private static double Percent(double fraction) => Math.Round(fraction * 100, 9);
}
