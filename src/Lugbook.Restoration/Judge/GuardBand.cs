namespace Lugbook.Restoration.Judge;

/// <summary>Decides against limits with a guard for the meter's error.</summary>
/// <remarks>
/// ISO 14253-1:2017: who wants to keep a part proves "within", who wants to condemn it proves "outside", each with 95 %: the guard is 1.65 standard uncertainties. An accuracy statement ±a is taken as
/// rectangular, u = a/√3 (JCGM 100, 4.3.7), so the guard is 0.9526·a. Probability of conformance: normal density between the limits (JCGM 106, 7).
/// </remarks>
internal static class GuardBand
{
    private const double OneSided = 1.65;

    /// <summary>The guard for an accuracy statement.</summary>
    public static double Of(double uncertainty) => OneSided * uncertainty / Math.Sqrt(3);

    /// <summary>The verdict on a value between two limits.</summary>
    /// <param name="value">Reading.</param>
    /// <param name="uncertainty">Accuracy statement ±a at this reading.</param>
    /// <param name="low">Lower limit; negative infinity for none.</param>
    /// <param name="high">Upper limit; infinity for none.</param>
    public static Verdict Decide(double value, double uncertainty, double low, double high)
    {
        var guard = Of(uncertainty);
        if (value <= low - guard || value >= high + guard) return Verdict.Outside;
        return value >= low + guard && value <= high - guard ? Verdict.Within : Verdict.Undecided;
    }

    /// <summary>Probability that the true value lies within the limits.</summary>
    public static double Conformance(double value, double uncertainty, double low, double high)
    {
        var u = uncertainty / Math.Sqrt(3);
        if (u <= 0) return value >= low && value <= high ? 1 : 0;
        return Math.Clamp(Normal((high - value) / u) - Normal((low - value) / u), 0, 1);
    }

    // Abramowitz and Stegun 26.2.17, error below 7.5e-8.
    private static double Normal(double z)
    {
        if (double.IsInfinity(z)) return z > 0 ? 1 : 0;
        var t = 1 / (1 + 0.2316419 * Math.Abs(z));
        var tail = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * t * (0.319381530 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
        return z > 0 ? 1 - tail : tail;
    }
}
