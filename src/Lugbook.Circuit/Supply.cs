using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Time;

namespace Lugbook.Circuit;

/// <summary>How the periodic steady state is sought.</summary>
public sealed record SupplyOptions
{
    /// <summary>Equal steps in one cycle of the line, 64 to 65,536; null: 1,024, divided where a current changes faster than they can follow.</summary>
    public int? StepsPerCycle { get; init; }
    /// <summary>Largest change over a cycle, as a share of the largest capacitor voltage (coil current); 1e-12 to 1e-3.</summary>
    public double Tolerance { get; init; } = 1e-8;
    /// <summary>Corrections at most; 1 or more.</summary>
    public int MostCorrections { get; init; } = 60;
    /// <summary>Elements of two terminals whose current is wanted, besides all diodes.</summary>
    public ImmutableArray<string> Currents { get; init; } = [];
    /// <summary>A state that is near, of this network or one like it: the search begins there. The answer is the same within the tolerance.</summary>
    public SupplyState? Near { get; init; }
}

/// <summary>One voltage over a cycle.</summary>
/// <param name="Average">Mean, V.</param>
/// <param name="RippleRms">Rms of what is left when the mean is taken off, V.</param>
/// <param name="RipplePeakToPeak">Highest less lowest, V.</param>
/// <param name="Lowest">Lowest, V.</param>
/// <param name="Highest">Highest, V.</param>
public sealed record CycleVolts(double Average, double RippleRms, double RipplePeakToPeak, double Lowest, double Highest);

/// <summary>One current over a cycle, from the element's first terminal to its second.</summary>
/// <param name="Average">Mean, A.</param>
/// <param name="Rms">Rms, A.</param>
/// <param name="Peak">Largest magnitude, A.</param>
public sealed record CycleAmperes(double Average, double Rms, double Peak);

/// <summary>A network in step with the line: every cycle is like the last.</summary>
/// <param name="Nodes">Volts of each node over a cycle, to the reference.</param>
/// <param name="Currents">Every diode, and what else was asked for, by name.</param>
/// <param name="Cycle">The cycle itself, moment by moment, from the line's rise through 0 V. Moments are equally spaced only if so many steps were asked for.</param>
/// <param name="Corrections">Newton corrections that were needed.</param>
/// <param name="Residual">Change over a cycle that is left, as a share of the largest capacitor voltage (coil current).</param>
public sealed record SupplyState(
    ImmutableArray<CycleVolts> Nodes, ImmutableDictionary<string, CycleAmperes> Currents, TimeCourse Cycle, int Corrections, double Residual)
{
    /// <summary>Where another search may begin.</summary>
    internal Beginning? Beginning { get; init; }
}

/// <summary>Rectifier, reservoir and load in periodic steady state.</summary>
public static class Supply
{
    /// <summary>Finds the state that a cycle of the line reproduces.</summary>
    /// <exception cref="ArgumentException">No line, lines of two frequencies, or an option out of range.</exception>
    /// <exception cref="UnsolvableException">No such state was found; the message says what still drifts.</exception>
    /// <remarks>
    /// Newton's method on the states at the start of a cycle (Aprille and Trick, Proc. IEEE 60, 1972, p. 108): derivatives are carried through
    /// every step by the step's own factors. Filaments and thermistors hold the resistance that their mean power gives. docs/supply.md.
    /// </remarks>
    public static SupplyState SteadyState(Network network, SupplyOptions? options = null)
    {
        options ??= new();
        var period = Period(network, options);
        var layout = new Layout(network, new HashSet<string>(StringComparer.Ordinal));
        var stepper = new Stepper(layout);
        for (var k = 0; k < stepper.HeatStates.Length; k++) stepper.HeatStates[k] = layout.Warms[k].Element is Filament ? 1 : 100;
        stepper.SetHeat();
        var begun = options.Near?.Beginning?.Put(layout, stepper) ?? false;
        var left = begun ? options.Near!.Beginning!.LeftFor(layout) : null;
        var (moments, corrections, residual) = Settle(layout, stepper, period, options, begun, ref left);
        return Report(network, layout, stepper, moments, options, corrections, residual, left);
    }

    private static (double[] Moments, int Corrections, double Residual) Settle(Layout layout, Stepper stepper, double period, SupplyOptions options, bool begun, ref double[,]? left)
    {
        var moments = Moments.Equal(period, options.StepsPerCycle ?? Moments.Usual);
        if (!begun) Shooting.Begin(stepper, moments);
        var corrections = Shooting.Solve(layout, stepper, moments, options, ref left, out var residual);
        if (options.StepsPerCycle is not null) return (moments, corrections, residual);
        for (var round = 0; round < Moments.Rounds && Moments.Divided(layout, stepper, moments) is { } finer; round++)
        {
            moments = finer;
            corrections += Shooting.Solve(layout, stepper, moments, options, ref left, out residual);
        }
        return (moments, corrections, residual);
    }

    private static double Period(Network network, SupplyOptions options)
    {
        if (options.StepsPerCycle is < 64 or > 65_536) throw new ArgumentException("The steps per cycle must be from 64 to 65,536.", nameof(options));
        if (options.Tolerance is not (>= 1e-12 and <= 1e-3)) throw new ArgumentException("The tolerance must be from 1e-12 to 1e-3.", nameof(options));
        if (options.MostCorrections < 1) throw new ArgumentException("One correction or more must be allowed.", nameof(options));
        foreach (var name in options.Currents)
            if (!network.Elements.Any(e => e.Name == name)) throw new ArgumentException($"No element is called '{name}'.", nameof(options));
        var hertz = network.Elements.OfType<Mains>().Select(m => m.Hertz).Distinct().ToArray();
        return hertz.Length switch
        {
            0 => throw new ArgumentException("The network has no line, so nothing is periodic. Add the mains.", nameof(network)),
            1 => 1 / hertz[0],
            _ => throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The network has lines of {hertz[0]} Hz and of {hertz[1]} Hz; a common cycle is needed."), nameof(network)),
        };
    }

    private static SupplyState Report(Network network, Layout layout, Stepper stepper, double[] moments, SupplyOptions options, int corrections, double residual, double[,]? left)
    {
        string[] names = [.. network.Elements.OfType<Diode>().Select(d => d.Name).Union(options.Currents)];
        var beginning = Beginning.Of(layout, stepper, left);
        var course = new Course(network, stepper, new TransientOptions { Currents = [.. names] });
        Shooting.Cycle(stepper, moments, course.Keep);
        var cycle = course.Done(layout);
        var shares = Moments.Shares(moments);
        double Mean(double[] values) => values.Zip(shares, (v, s) => v * s).Sum();
        var nodes = Enumerable.Range(0, network.NodeCount).Select(n =>
        {
            // The first and the last moment are one.
            var volts = cycle.Volts.Select(v => v[n]).Skip(1).ToArray();
            var average = Mean(volts);
            return new CycleVolts(average, Math.Sqrt(Mean([.. volts.Select(v => (v - average) * (v - average))])), volts.Max() - volts.Min(), volts.Min(), volts.Max());
        });
        var currents = names.ToImmutableDictionary(n => n, n =>
        {
            var amperes = cycle.Currents[n].Skip(1).ToArray();
            return new CycleAmperes(Mean(amperes), Math.Sqrt(Mean([.. amperes.Select(a => a * a)])), amperes.Max(Math.Abs));
        });
        return new([.. nodes], currents, cycle, corrections, residual) { Beginning = beginning };
    }
}
