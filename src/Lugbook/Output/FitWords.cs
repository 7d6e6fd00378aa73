using System.Globalization;
using Lugbook.Restoration.Fit;

namespace Lugbook.Output;

/// <summary>A job sheet in words, for pages and commands alike.</summary>
internal static class FitWords
{
    public static string Verdict(LugVerdict verdict) => verdict == LugVerdict.ClearToBareMetal ? "clear to bare metal" : "splice onto short tails";

    public static string Mounting(Mounting mounting) => mounting switch
    {
        Restoration.Fit.Mounting.Between => "between its lugs",
        Restoration.Fit.Mounting.DogLeg => "beside the line, dog leg",
        Restoration.Fit.Mounting.Standing => "on end",
        Restoration.Fit.Mounting.Upright => "upright",
        _ => "hold it against the lugs",
    };

    /// <summary>"2 h 40 min", "35 min".</summary>
    public static string Minutes(double minutes)
    {
        var whole = (int)Math.Round(minutes);
        return whole < 60 ? string.Create(CultureInfo.InvariantCulture, $"{whole} min") : string.Create(CultureInfo.InvariantCulture, $"{whole / 60} h {whole % 60:00} min");
    }

    public static string Time(WorkEstimate estimate) => $"{Minutes(estimate.Minutes)} ({Minutes(estimate.Low)} to {Minutes(estimate.High)})";

    public static string Mm(double? mm) => mm is { } m ? string.Create(CultureInfo.InvariantCulture, $"{m:0.#} mm") : "not known";

    /// <summary>One lead in one line: "a at A-1: cut at 24 mm, bend at 3 mm, sleeve 20 mm".</summary>
    public static string Lead(LeadPlan lead)
    {
        var cut = lead.CutMm is { } c ? string.Create(CultureInfo.InvariantCulture, $"cut at {c:0} mm") : "cut at the lug";
        var bends = lead.BendsMm.IsEmpty ? "" : $", bend at {string.Join(" and ", lead.BendsMm.Select(b => b.ToString("0.#", CultureInfo.InvariantCulture)))} mm";
        var sleeve = lead.SleeveMm switch { null => ", sleeve by eye", 0 => "", { } s => string.Create(CultureInfo.InvariantCulture, $", sleeve {s:0} mm") };
        return $"{lead.Letter} at {lead.Lug}: {cut}{bends}{sleeve}";
    }
}
