using System.Collections.Immutable;
using Lugbook.Circuit.Valves.Fitting;

namespace Lugbook.Circuit.Valves;

/// <summary>What is expected of a type before its own lines are read: a mean and a spread for each fitted number, per class.</summary>
/// <remarks>
/// Learned by one pass: every type with two lines or more is fitted with the physical expectations; then, number by number, the new mean is the median over the types
/// whose own lines told it (cut its expected spread to seven tenths or less), and the new spread 1.48 times the median distance from it, at least three tenths and at most all of the physical one. Fewer than three such
/// types leave the physical expectation. Amplification factors and perveances are never learned: types differ in them by design.
/// </remarks>
public sealed class ClassPriors
{
    private const double Told = 0.7;
    private const double LeastSpread = 0.3;
    private readonly ImmutableDictionary<ValveClass, ImmutableArray<Expectation>> _shapes;

    private ClassPriors(ImmutableDictionary<ValveClass, ImmutableArray<Expectation>> shapes) => _shapes = shapes;

    /// <summary>Expectations from physics and curve families alone.</summary>
    public static ClassPriors Physical { get; } = new(ImmutableDictionary<ValveClass, ImmutableArray<Expectation>>.Empty);

    /// <summary>Expectations learned from types already fitted with <see cref="Physical"/>; leave out the type that they are for.</summary>
    public static ClassPriors Learn(IEnumerable<FittedLaw> fits)
    {
        var shapes = ImmutableDictionary.CreateBuilder<ValveClass, ImmutableArray<Expectation>>();
        foreach (var group in fits.GroupBy(f => f.Class))
        {
            var shape = Shape.Of(group.Key);
            shapes[group.Key] = [.. shape.Select((e, a) => e.OfTheClass ? Learned(e, [.. group.Where(f => f.Untold[a] < Told).Select(f => f.Fitted[a])]) : e)];
        }
        return new(shapes.ToImmutable());
    }

    internal ImmutableArray<Expectation> For(ValveClass valveClass) => _shapes.TryGetValue(valveClass, out var shape) ? shape : Shape.Of(valveClass);

    private static Expectation Learned(Expectation physical, double[] told)
    {
        if (told.Length < 3) return physical;
        var mean = Median(told);
        var spread = 1.4826 * Median([.. told.Select(t => Math.Abs(t - mean))]);
        return physical with { Mean = mean, Spread = Math.Clamp(spread, LeastSpread * physical.Spread, physical.Spread) };
    }

    private static double Median(double[] values)
    {
        var sorted = values.Order().ToArray();
        var half = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[half] : 0.5 * (sorted[half - 1] + sorted[half]);
    }
}
