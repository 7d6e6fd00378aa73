using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Slips;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>An after-check for programs.</summary>
internal static class CheckShape
{
    public static object Of(AfterCheck check, CheckOutcome outcome) => new
    {
        check.Position, check.Reason, check.Why, check.IsProven, check.Exchanged, check.LookAt,
        Readings = check.Readings.Select(r => new
        {
            r.Number, Quantity = ReadingWords.Of(r.Kind), r.From, r.To, r.Meter, Expected = Between(r.Expected), About = Finite(r.About), Seconds = Finite(r.Seconds), r.Sentence, r.Hint,
            Slips = r.Slips.Select(s => new { s.Slip.Id, Shown = s.Shown.Select(Between), s.Sentence, s.Exposed }),
        }),
        Slips = check.Slips.Select(s => new { s.Slip.Id, s.Slip.Kind, s.Slip.Sentence, s.Slip.Lugs, s.Slip.LookAt, s.Exposed, s.ToldApart, s.AlikeWith, Modelled = s.Slip.Change is not null }),
        Entered = new { outcome.Verdict, Suspects = outcome.Suspects.Select(s => s.Id), outcome.Off, outcome.Left, outcome.Sentence },
        Cautions = check.Cautions.Select(ChooseShape.Of),
    };

    // JSON has no infinity: null is "over".
    private static object Between(Interval i) => new { i.Low, High = Finite(i.High) };
    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
