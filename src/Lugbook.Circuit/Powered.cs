using System.Collections.Immutable;
using Lugbook.Circuit.Powering;

namespace Lugbook.Circuit;

/// <summary>How the cycle of the line is followed.</summary>
public sealed record PoweredOptions
{
    /// <summary>Steps in one cycle; 64 to 65,536.</summary>
    public int StepsPerCycle { get; init; } = 256;
    /// <summary>Capacitors below this hold no charge that counts over a cycle and are left out of it, F; 0 or more.</summary>
    public double LeastFarads { get; init; } = 0.5e-6;
    /// <summary>Coils below this are their resistance, H; 0 or more.</summary>
    public double LeastHenries { get; init; } = 0.1;
}

/// <summary>A rectifier as direct current sees it: a source and a one-way law that pass the mean current at the mean voltage.</summary>
/// <param name="Element">The rectifier's name; in <see cref="PoweredState.Direct"/> its law is the averaged one.</param>
/// <param name="Source">Name of the source before it: the voltage that the alternating side lifts it by. It goes with the line voltage.</param>
/// <param name="LiftVolts">That voltage, V: near the peak of what the winding or the line gives, where nothing is drawn.</param>
/// <param name="Amperes">Its mean current, A.</param>
public sealed record AveragedRectifier(string Element, string Source, double LiftVolts, double Amperes);

/// <summary>A set on its own supply.</summary>
/// <param name="Cycle">The cycle that repeats itself: ripple, peaks, rms volts of every node, currents of every rectifier, large capacitor, filament and fuse.</param>
/// <param name="Direct">The same set for direct current: every rectifier of the line averaged, the line at rest. Its operating point, sensitivities and variants are the set's.</param>
/// <param name="Point">Operating point of <see cref="Direct"/>.</param>
/// <param name="Rectifiers">What was averaged.</param>
/// <param name="MeanErrorVolts">Largest difference between a node's mean over the cycle and the operating point, V: what averaging costs.</param>
public sealed record PoweredState(SupplyState Cycle, Network Direct, OperatingPoint Point, ImmutableArray<AveragedRectifier> Rectifiers, double MeanErrorVolts);

/// <summary>Joins the rectifier's cycle with the set's own load.</summary>
public static class Powered
{
    /// <summary>The set in step with the line, and what direct current makes of it.</summary>
    /// <exception cref="ArgumentException">No line, or an option out of range.</exception>
    /// <exception cref="UnsolvableException">The cycle or the operating point does not settle.</exception>
    /// <remarks>
    /// The cycle is solved with all valves conducting, without what holds no charge over a cycle. Each rectifier whose voltage alternates then becomes a source E and a law
    /// I = K·(V + E)ˣ: K from the mean current, x from a second cycle with a tenth more load, E the peak that stands across the rectifier when nothing is drawn (where a choke follows, x = 1 and E from both
    /// cycles). Nodes keep their numbers; one inner node a rectifier is added at the end. docs/supply.md.
    /// </remarks>
    public static PoweredState Of(Network network, PoweredOptions? options = null)
    {
        options ??= new();
        var reduced = Reduction.Of(network, options);
        var how = new SupplyOptions { StepsPerCycle = options.StepsPerCycle, Tolerance = 1e-6, Currents = Reduction.Followed(reduced) };
        var cycle = Supply.SteadyState(reduced, how);
        var more = Averaging.MoreLoad(reduced, cycle) is { } loaded ? Supply.SteadyState(loaded, how) : null;
        var (direct, rectifiers) = Averaging.Of(network, cycle, more, OpenLift.Of(reduced));
        var point = OperatingPoint.Of(direct);
        double error = 0;
        for (var n = 0; n < network.NodeCount; n++)
            if (!point.FloatingNodes.Contains(n) && Averaging.IsDirect(cycle.Nodes[n])) error = Math.Max(error, Math.Abs(point.Volts[n] - cycle.Nodes[n].Average));
        return new(cycle, direct, point, rectifiers, error);
    }
}
