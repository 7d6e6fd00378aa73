using Lugbook.Restoration.Trace;
using Lugbook.Trade;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>A search for programs.</summary>
internal static class TraceShape
{
    public static object Of(Book book, TraceResult result) => new
    {
        Book = book.Name, result.Reason, result.Verdict, result.Sentence, result.Healthy, result.NotModelled,
        Suspects = result.Suspects.Select(s => new
        {
            s.Id, s.Kind, s.Position, s.Words, s.Size, s.Probability, s.Group, s.Act, s.Why, s.MindChanger,
            Evidence = s.Evidence.Select(e => new { Place = Place(e.Place), e.Value, e.Expected, e.Low, e.High, e.Speaks }),
        }),
        Readings = result.Readings.Select(r => new { Place = Place(r.Place), r.Value, r.IsOver, r.Healthy, r.HealthyLow, r.HealthyHigh, r.Mistyped }),
        Next = result.Next.Select(n => new { Place = Place(n.Place), n.Part, n.Meter, n.Bits, n.Cost, n.Healthy, Each = n.Each.Select(e => new { e.Suspect, e.Shows }), n.Sentence }),
        result.Unused, Cautions = result.Cautions.Select(ChooseShape.Of), result.Remarks,
    };

    private static object Place(ProbePlace p) => new { Quantity = ReadingWords.Of(p.Kind), p.From, p.To };
}
