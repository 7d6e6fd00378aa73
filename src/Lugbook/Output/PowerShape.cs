using Lugbook.Restoration.Power;
using Lugbook.Trade;

namespace Lugbook.Output;

/// <summary>The JSON shape of the supply.</summary>
internal static class PowerShape
{
    public static object Of(Book book, PowerResult power) => new
    {
        Book = book.Name,
        book.Facts.Title,
        power.Reason,
        power.Cautions,
        Rectifiers = power.Rectifiers.Select(r => new
        {
            r.Position, r.Type, r.IsValve, r.OutputVolts, Checks = r.Checks.Select(c => new { c.What, c.Unit, c.Amount, c.Limit, c.IsLeast, c.Passed }),
            r.HotSwitchAmperes, r.Sizes, r.LargestFarads, r.Sentence,
        }),
        power.Silicon,
        Line = power.Line is not { } line ? null : new
        {
            line.MadeForVolts, line.TodayVolts, line.LineAmperes, Heaters = line.Heaters.Select(h => new { h.Heater, h.Share }), line.Passes, line.DropperOhms, line.DropperWatts,
            OutputVolts = new { line.OutputVolts.Made, line.OutputVolts.Today, line.OutputVolts.Dropped }, line.BuckingVolts, line.BuckingAmperes, line.Sentences,
        },
    };
}
