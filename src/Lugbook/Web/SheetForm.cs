using System.Diagnostics.CodeAnalysis;
using Lugbook.Trade;
using Lugbook.Trade.Meters;

namespace Lugbook.Web;

/// <summary>Reads the form of the meter, the line and the chart.</summary>
internal static class SheetForm
{
    public static bool TryRead(
        BookFacts before, string? meter, string? today, string? chartLine, string? chartPerVolt, string? chartMegohms, [NotNullWhen(true)] out BookFacts? facts, out string? wrong)
    {
        facts = null;
        wrong = null;
        var t = FactsForm.Number(today, "Today's line voltage", 50, 300, ref wrong);
        var l = FactsForm.Number(chartLine, "The chart's line voltage", 50, 300, ref wrong);
        var o = FactsForm.Number(chartPerVolt, "The chart's ohms a volt", 10, 1e6, ref wrong);
        var i = FactsForm.Number(chartMegohms, "The chart meter's input in megohms", 0.001, 1e6, ref wrong);
        if (o is not null && i is not null) wrong ??= "The chart's meter has either ohms a volt or a fixed input, not both. Clear one of them; nothing was kept.";
        if (wrong is not null) return false;
        facts = before with { Meter = meter is null || meter == MeterShelf.All[0].Name ? null : meter, TodayLineVolts = t, ChartLineVolts = l, ChartOhmsPerVolt = o, ChartInputOhms = i * 1e6 };
        return true;
    }
}
