using System.Collections.Concurrent;

namespace Lugbook.Benchmarks;

/// <summary>How far batch and dense matrices came out apart, kept for the report.</summary>
internal static class Agreement
{
    private static readonly ConcurrentDictionary<int, double> Volts = new();

    /// <summary>Keeps the largest difference of a size, V.</summary>
    public static void Note(int parts, double volts) => Volts.AddOrUpdate(parts, volts, (_, before) => Math.Max(before, volts));

    /// <summary>The largest of all, V.</summary>
    public static double Worst => Volts.Values.DefaultIfEmpty(double.NaN).Max();
}
