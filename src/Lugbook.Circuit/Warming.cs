using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Time;

namespace Lugbook.Circuit;

/// <summary>A moment of the warming.</summary>
/// <param name="Seconds">Since switch-on, s.</param>
/// <param name="State">The set at that moment.</param>
/// <param name="HeaterVolts">Rms volts over rated volts, by filament: while a string warms, a fast heater has more than its share.</param>
public sealed record WarmingMoment(double Seconds, WarmedState State, ImmutableDictionary<string, double> HeaterVolts);

/// <summary>From switch-on until everything is warm, moment by moment.</summary>
/// <remarks>
/// The line's cycles are short beside the warming: at each moment the cycle that repeats itself is solved with heaters and cathodes as warm as they are, then the heat is carried on by
/// the law of <see cref="Transient"/>. What lasts for less than a moment (reservoirs filling, the first inrush into a cold transformer) is not in it.
/// </remarks>
public static class Warming
{
    private const int Inner = 16;

    /// <summary>Moments that are usually enough, s.</summary>
    public static ImmutableArray<double> UsualSeconds { get; } = [0, 0.5, 1, 2, 3, 4, 6, 8, 10, 12, 15, 20, 25, 30, 40, 60];

    /// <summary>Follows the warming.</summary>
    /// <param name="network">The set with its line, every valve as if it were warm.</param>
    /// <param name="heaters">Which filament heats which valve.</param>
    /// <param name="seconds">Moments, rising from 0, s.</param>
    /// <param name="options">How the cycle is followed.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="ArgumentException">No line, a name that is none, or moments that do not rise.</exception>
    /// <exception cref="UnsolvableException">A cycle does not settle.</exception>
    public static ImmutableArray<WarmingMoment> Of(Network network, ImmutableDictionary<string, string> heaters, ImmutableArray<double> seconds, PoweredOptions? options = null, CancellationToken stop = default)
    {
        if (seconds.IsDefaultOrEmpty || seconds[0] != 0 || seconds.Zip(seconds.Skip(1)).Any(p => !(p.Second > p.First))) throw new ArgumentException("Moments rise from 0 s.", nameof(seconds));
        Element[] slow = [.. network.Elements.Where(e => e is Filament { WarmUpSeconds: > 0 } or Thermistor)];
        var rises = slow.ToDictionary(e => e.Name, _ => 0.0, StringComparer.Ordinal);
        var moments = ImmutableArray.CreateBuilder<WarmingMoment>(seconds.Length);
        for (var k = 0; k < seconds.Length; k++)
        {
            stop.ThrowIfCancellationRequested();
            var state = Warmed.During(network, heaters, rises, options, k > 0 ? moments[k - 1].State : null);
            moments.Add(new(seconds[k], state, slow.OfType<Filament>().ToImmutableDictionary(f => f.Name, f => Warmed.Rms(state.Cycle, f) / f.RatedVolts)));
            if (k + 1 < seconds.Length)
                foreach (var e in slow) rises[e.Name] = Carried(e, rises[e.Name], Ends(e) is var (a, b) ? Warmed.Rms(state.Cycle, a, b) : 0, seconds[k + 1] - seconds[k]);
        }
        return moments.MoveToImmutable();
    }

    private static (int A, int B)? Ends(Element e) => e switch { Filament f => (f.A, f.B), Thermistor t => (t.A, t.B), _ => null };

    /// <summary>Heat after a while at steady volts, in short steps; it does not pass the heat at which those volts would be given off.</summary>
    private static double Carried(Element e, double heat, double volts, double seconds)
    {
        var step = seconds / Inner;
        for (var k = 0; k < Inner; k++)
        {
            var small = 1e-6 * Math.Max(Math.Abs(heat), 1);
            double Rate(double h) => Heat.Rate(e, h, volts * volts / Math.Max(Heat.Ohms(e, h), 1e-3));
            var rate = Rate(heat);
            var slope = Math.Min((Rate(heat + small) - rate) / small, 0);
            // Exponential Euler: stable at any step.
            heat += slope * step > -1e-9 ? rate * step : rate * (Math.Exp(slope * step) - 1) / slope;
            heat = Math.Max(heat, 0);
        }
        return heat;
    }
}
