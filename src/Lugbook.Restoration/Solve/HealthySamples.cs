using System.Collections.Immutable;
using Lugbook.Circuit;
using Lugbook.Restoration.Netlist;

namespace Lugbook.Restoration.Solve;

/// <summary>Sets as they might have left the works: every part somewhere within its tolerance, every valve within the spread of new ones, the line where it happens to be.</summary>
/// <remarks>
/// Latin hypercube (McKay, Beckman and Conover, Technometrics 21, 1979): each value's range is cut into as many slices as there are samples and each slice used once. Uniform within a
/// range; ratios where the range is one of ratios. All that the line moves moves together. The seed is fixed: the same set, the same samples.
/// </remarks>
internal static class HealthySamples
{
    private const int Seed = 1951;

    /// <summary>Changes of each sample.</summary>
    public static IEnumerable<(string, Parameter, double)[]> Of(ImmutableArray<Spread> spreads, int samples)
    {
        var random = new Random(Seed);
        Spread[] healthy = [.. spreads.Where(s => s.Cause is SpreadCause.Tolerance or SpreadCause.Valve or SpreadCause.Line or SpreadCause.Declared)];
        var line = Slices(random, samples);
        var slices = healthy.Select(s => s.Cause == SpreadCause.Line ? line : Slices(random, samples)).ToArray();
        for (var n = 0; n < samples; n++) yield return [.. healthy.Select((s, k) => (s.Element, s.Parameter, At(s, slices[k][n])))];
    }

    /// <summary>A value at a share of its range.</summary>
    public static double At(Spread s, double share) =>
        s.Geometric && s.Low > 0 ? s.Low * Math.Pow(s.High / s.Low, share) : s.Low + (s.High - s.Low) * share;

    private static double[] Slices(Random random, int samples)
    {
        var shares = new double[samples];
        for (var n = 0; n < samples; n++) shares[n] = (n + random.NextDouble()) / samples;
        random.Shuffle(shares);
        return shares;
    }
}
