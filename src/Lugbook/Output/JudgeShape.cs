using Lugbook.Restoration.Judge;
using Lugbook.Trade;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>The JSON shape of judgements.</summary>
internal static class JudgeShape
{
    public static object Of(Book book, JudgeResult result) => new
    {
        Book = book.Name,
        book.Facts.Title,
        result.Policy,
        result.Unsolved,
        Parts = result.Parts.Select(p => new
        {
            p.Position, p.Decision, p.Reason, p.ByUser, p.Bears,
            Stake = p.Stake.Sentence is null ? null : new { p.Stake.Score, p.Stake.Sentence },
            Readings = p.Judgements.Select(Of),
            Next = p.Next is null ? null : Of(p.Next),
        }),
        Volts = result.Volts.Select(v => new { v.Lug, v.What, Readings = v.Judgements.Select(Of), v.Passed }),
        Round = result.Round.Select(s => new { s.Number, s.Position, s.LugA, s.LugB, s.ChangesMeter, How = Of(s.How) }),
        result.Remarks,
        Cautions = new[] { JudgeWords.Caution },
    };

    private static object Of(Judgement j) => new
    {
        Quantity = ReadingWords.Of(j.Reading.Kind), j.Reading.Value, Over = j.Reading.IsOver, Lifted = j.Reading.IsLifted, j.Reading.LiftedPart, j.Reading.Meter, j.Reading.TestVolts, j.Reading.At,
        j.Verdict, j.Sentence, j.Instead, Intact = Of(j.Intact), True = Of(j.True), j.Uncertainty, j.Probability,
    };

    private static object Of(HowToMeasure how) => new { Quantity = ReadingWords.Of(how.Kind), how.InPlace, how.LiftPart, how.LiftLug, Intact = Of(how.Intact), how.WaitSeconds, how.Polarity, how.Sentence };
    private static object? Of(Interval? range) => range is { } r ? new { r.Low, High = double.IsFinite(r.High) ? r.High : (double?)null } : null;
}
