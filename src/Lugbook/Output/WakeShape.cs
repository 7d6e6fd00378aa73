using Lugbook.Restoration.Wake;
using Lugbook.Trade;

namespace Lugbook.Output;

/// <summary>The JSON shape of the first power.</summary>
internal static class WakeShape
{
    public static object Of(Book book, WakeResult wake) => new
    {
        Book = book.Name,
        book.Facts.Title,
        wake.Reason,
        wake.LineVolts,
        wake.Cautions,
        wake.Watched,
        wake.Lamps,
        Steps = wake.Steps.Select(s => new
        {
            s.Number, s.Title, s.Connect, s.Purpose, s.LampWatts, s.LineShare, s.Out, s.WaitSeconds, s.Glow, s.Needs, s.Cautions,
            Expected = s.Expected.Select(e => new { e.What.Id, e.What.Words, e.What.Unit, e.Nominal, e.Low, e.High, e.StopBelow, e.StopAbove, e.Margin, e.Why }),
            Faults = s.Faults.Select(f => new { f.Words, f.Position, f.Shows, f.Caught }),
        }),
        wake.CourseStep,
        Course = wake.Course.Select(c => new { c.Seconds, c.Values, LeastHeater = c.HeaterShare.Least, GreatestHeater = c.HeaterShare.Greatest }),
        wake.Stores,
        wake.Remarks,
    };
}
