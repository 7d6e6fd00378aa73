namespace Lugbook.Trade.Markings.Colours;

/// <summary>How well a value suits what was made.</summary>
internal enum Fit
{
    /// <summary>In no series.</summary>
    None,
    /// <summary>In a finer series than its tolerance asks for.</summary>
    Finer,
    /// <summary>An old round value, from before the series.</summary>
    Round,
    /// <summary>In the series of its tolerance.</summary>
    Own,
}

/// <summary>Membership in the preferred series (IEC 60063) and among the old round values.</summary>
/// <remarks>
/// E48, E96 and E192 are the rounded geometric series, with 9.20 for 9.19 in E192 as in the standard.
/// Old round values: common practice, no source.
/// </remarks>
internal static class SeriesFit
{
    private static readonly HashSet<int> E6 = [100, 150, 220, 330, 470, 680];
    private static readonly HashSet<int> E12 = [.. E6, 120, 180, 270, 390, 560, 820];
    private static readonly HashSet<int> E24 = [.. E12, 110, 130, 160, 200, 240, 300, 360, 430, 510, 620, 750, 910];
    private static readonly HashSet<int> E48 = Geometric(48);
    private static readonly HashSet<int> E96 = Geometric(96);
    private static readonly HashSet<int> E192 = [.. Geometric(192).Where(n => n != 919), 920];
    private static readonly HashSet<int> OldRound = [100, 125, 150, 200, 250, 300, 350, 400, 500, 600, 700, 750, 800];

    /// <summary>How a value of this tolerance fits, and the name of the series it is in.</summary>
    /// <param name="value">Above 0.</param>
    /// <param name="percent">Tolerance; null when not known or not of interest: then E24 is the series.</param>
    public static (Fit Fit, string Series) Of(double value, double? percent)
    {
        var (own, ownName) = percent switch
        {
            >= 20 => (E6, "E6"),
            >= 10 => (E12, "E12"),
            null or > 2 => (E24, "E24"),
            2 => (E48, "E48"),
            >= 1 => (E96, "E96"),
            _ => (E192, "E192"),
        };
        if (Figures(value) is not { } figures) return (Fit.None, "");
        if (own.Contains(figures)) return (Fit.Own, ownName);
        // Fine tolerances are sold in the E24 values too.
        if (percent <= 2 && E24.Contains(figures)) return (Fit.Own, "E24");
        if (OldRound.Contains(figures)) return (Fit.Round, "");
        if (percent is null) return E96.Contains(figures) ? (Fit.Finer, "E96") : (Fit.None, "");
        if (percent >= 20 && E12.Contains(figures)) return (Fit.Finer, "E12");
        if (percent > 2) return E24.Contains(figures) ? (Fit.Finer, "E24") : (Fit.None, "");
        if (E96.Contains(figures)) return (Fit.Finer, "E96");
        return E192.Contains(figures) ? (Fit.Finer, "E192") : (Fit.None, "");
    }

    /// <summary>The series that belongs to a tolerance: "E12".</summary>
    public static string SeriesOf(double? percent) => percent switch
    {
        >= 20 => "E6",
        >= 10 => "E12",
        null or > 2 => "E24",
        2 => "E48",
        >= 1 => "E96",
        _ => "E192",
    };

    /// <summary>The value's first three figures, 100 to 999; null when it has more.</summary>
    private static int? Figures(double value)
    {
        var scaled = value / Math.Pow(10, Math.Floor(Math.Log10(value)) - 2);
        if (scaled < 99.9999) scaled *= 10;
        var whole = Math.Round(scaled);
        return Math.Abs(scaled - whole) > 1e-6 * scaled ? null : whole >= 1000 ? 100 : (int)whole;
    }

    private static HashSet<int> Geometric(int count) =>
        [.. Enumerable.Range(0, count).Select(k => (int)Math.Round(100 * Math.Pow(10, k / (double)count)))];
}
