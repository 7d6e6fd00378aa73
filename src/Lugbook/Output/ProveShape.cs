using Lugbook.Restoration.Judge;
using Lugbook.Restoration.Prove;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Slips;
using Lugbook.Trade;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>The cold proof for programs.</summary>
internal static class ProveShape
{
    public static object Of(Book book, ProveResult proof, CheckOutcome outcome, SheetResult? chart) => new
    {
        Book = book.Name, proof.Reason, proof.Touched, proof.ShortReadings, proof.WhyShorts, proof.WhySlips, proof.Cover,
        Readings = proof.Readings.Select(r => new
        {
            r.Number, Quantity = ReadingWords.Of(r.Kind), r.From, r.To, r.Meter, Expected = Between(r.Expected), About = Finite(r.About), Seconds = Finite(r.Seconds), r.Sentence, r.Hint,
            Exposes = r.Slips.Where(s => s.Exposed).Select(s => new { s.Slip.Id, Shown = s.Shown.Select(Between), s.Sentence }),
        }),
        Shorts = proof.Shorts.Select(s => new { s.Slip.Id, s.Kind, s.Slip.Sentence, s.Slip.Lugs, s.By, s.IsTold, s.WhyNot }),
        proof.Unseen, proof.Looks,
        Entered = new { outcome.Verdict, Suspects = outcome.Suspects.Select(s => s.Id), outcome.Off, outcome.Left, outcome.Sentence },
        Chart = chart?.Lines.Where(l => l.Ohms is not null).Select(l => new { l.Lug, l.What, Ohms = Finite(l.Ohms!.Value), Low = l.OhmsLow is { } low ? Finite(low) : null, High = l.OhmsHigh is { } high ? Finite(high) : null, Seconds = Finite(l.SettlingSeconds ?? 0) }),
        Cautions = proof.Cautions.Select(ChooseShape.Of),
    };

    // JSON has no infinity: null is "over".
    private static object Between(Interval i) => new { i.Low, High = Finite(i.High) };
    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
