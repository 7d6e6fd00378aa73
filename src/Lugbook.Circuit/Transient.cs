using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Time;

namespace Lugbook.Circuit;

/// <summary>A switch that changes at a time.</summary>
/// <param name="Name">The switch's name in the network.</param>
/// <param name="Seconds">When, s; 0 or more.</param>
/// <param name="Closed">What it becomes.</param>
public sealed record Switching(string Name, double Seconds, bool Closed);

/// <summary>How time is followed.</summary>
public sealed record TransientOptions
{
    /// <summary>Error allowed in one step, as a share of each capacitor's voltage and each coil's current; 1e-12 to 0.1.</summary>
    public double RelativeTolerance { get; init; } = 1e-6;
    /// <summary>Error allowed in one step whatever the voltage, V; above 0. For currents a thousandth of this, A.</summary>
    public double AbsoluteVolts { get; init; } = 1e-6;
    /// <summary>A fixed step, s; null for a step that follows the error.</summary>
    public double? FixedStep { get; init; }
    /// <summary>Longest step, s; null for a fiftieth of the time, and a fortieth of a cycle of the line.</summary>
    public double? LongestStep { get; init; }
    /// <summary>Given up after so many steps; 1 or more.</summary>
    public int MostSteps { get; init; } = 2_000_000;
    /// <summary>Phase of the line at the start, radians: 0 where it rises through 0 V.</summary>
    public double PhaseRadians { get; init; }
    /// <summary>Switches that change. Closed they have 10 mΩ, open 1 TΩ.</summary>
    public ImmutableArray<Switching> Switchings { get; init; } = [];
    /// <summary>Volts at the start of each capacitor named, A to B; others are at 0 V.</summary>
    public ImmutableDictionary<string, double> CapacitorVolts { get; init; } = ImmutableDictionary<string, double>.Empty;
    /// <summary>Current at the start of each inductor named, A; others carry none.</summary>
    public ImmutableDictionary<string, double> InductorAmperes { get; init; } = ImmutableDictionary<string, double>.Empty;
    /// <summary>Filaments and thermistors start as warm as their rated power (filaments) or 0 W (thermistors) makes them; false: all are cold.</summary>
    public bool StartWarm { get; init; }
    /// <summary>Which filament heats which valve (valve's name, filament's name): its current follows the cathode's emission. Valves not named conduct from the start.</summary>
    public ImmutableDictionary<string, string> Heaters { get; init; } = ImmutableDictionary<string, string>.Empty;
    /// <summary>Elements of two terminals whose current is kept.</summary>
    public ImmutableArray<string> Currents { get; init; } = [];
    /// <summary>Ends early when this says so of the volts of all nodes.</summary>
    public Func<ImmutableArray<double>, bool>? Until { get; init; }
}

/// <summary>What happened over time.</summary>
/// <param name="Seconds">Time of each moment, from 0, s.</param>
/// <param name="Volts">Volts of every node at each moment.</param>
/// <param name="Currents">Amperes at each moment, of each element asked for, from its first terminal to its second.</param>
/// <param name="CapacitorVolts">Volts within each capacitor at the end (behind its series resistance).</param>
/// <param name="InductorAmperes">Current of each inductor at the end.</param>
public sealed record TimeCourse(
    ImmutableArray<double> Seconds, ImmutableArray<ImmutableArray<double>> Volts, ImmutableDictionary<string, ImmutableArray<double>> Currents,
    ImmutableDictionary<string, double> CapacitorVolts, ImmutableDictionary<string, double> InductorAmperes);

/// <summary>Voltages and currents from a start on.</summary>
public static class Transient
{
    private const double JumpSeconds = 1e-12;

    /// <summary>Follows a network through time.</summary>
    /// <param name="network">The network.</param>
    /// <param name="seconds">How long, s; above 0.</param>
    /// <param name="options">How; null for the defaults.</param>
    /// <exception cref="ArgumentException">An option names no element, or is out of range.</exception>
    /// <exception cref="UnsolvableException">A moment would not settle; the message says when.</exception>
    /// <remarks>Method and limits: docs/supply.md.</remarks>
    public static TimeCourse Of(Network network, double seconds, TransientOptions? options = null)
    {
        options ??= new();
        Check(network, seconds, options);
        var layout = new Layout(network, options.Switchings.Select(s => s.Name).ToHashSet(StringComparer.Ordinal));
        var stepper = new Stepper(layout) { PhaseRadians = options.PhaseRadians, Emission = new Emission(layout, options.Heaters) };
        Begin(layout, stepper, options);
        var followed = new Course(network, stepper, options);
        var longest = options.LongestStep ?? Math.Min(seconds / 50, layout.Lines.Select(l => 1 / (40 * l.Element.Hertz)).DefaultIfEmpty(double.PositiveInfinity).Min());
        if (!stepper.Rest(0, Math.Min(longest, 1e-3) * 1e-6)) throw stepper.Stuck(0);
        followed.Keep(0);
        var events = options.Switchings.Where(s => s.Seconds < seconds).OrderBy(s => s.Seconds).ToArray();
        var at = 0;
        double t = 0;
        var step = options.FixedStep ?? longest * 1e-3;
        for (var count = 0; t < seconds && !followed.Ended; )
        {
            while (at < events.Length && events[at].Seconds <= t)
            {
                stepper.Closed[layout.Gates.FindIndex(g => g.Element.Name == events[at].Name)] = events[at].Closed;
                stepper.SetGates();
                at++;
                if (options.FixedStep is null) step = Math.Min(step, longest * 1e-3);
            }
            var end = at < events.Length ? Math.Min(events[at].Seconds, seconds) : seconds;
            // What would leave a sliver is stretched or halved.
            var left = end - t;
            var h = left <= step * 1.000001 ? left : options.FixedStep is null && left < 2 * step ? left / 2 : step;
            if (++count > options.MostSteps) throw Slow(layout, stepper, options, t, seconds);
            var (next, done) = Advance(layout, stepper, options, t, h, longest);
            step = options.FixedStep ?? next;
            if (!done) continue;
            t = left == h ? end : t + h;
            followed.Keep(t);
        }
        return followed.Done(layout);
    }

    private static (double Next, bool Done) Advance(Layout layout, Stepper stepper, TransientOptions options, double t, double h, double longest)
    {
        var state = (double[])stepper.State.Clone();
        var volts = stepper.Volts.ToArray();
        var heat = (double[])stepper.HeatStates.Clone();
        // Resistance of what warms is held over the step at its middle, foreseen from the power now.
        var foreseen = new double[heat.Length];
        for (var k = 0; k < heat.Length; k++) foreseen[k] = Warmed(layout.Warms[k].Element, heat[k], stepper.Watts(k), h / 2);
        foreseen.CopyTo(stepper.HeatStates, 0);
        stepper.SetHeat();
        var settled = stepper.Step(t, h);
        double worst = 0;
        if (settled)
        {
            foreach (var s in layout.Stores) worst = Math.Max(worst, Share(stepper, s.State, options.AbsoluteVolts, options));
            foreach (var w in layout.Windings)
                for (var p = 0; p < w.Windings.Length; p++) worst = Math.Max(worst, Share(stepper, w.State + p, options.AbsoluteVolts * 1e-3, options));
            for (var k = 0; k < heat.Length; k++)
            {
                var middle = Warmed(layout.Warms[k].Element, heat[k], stepper.Watts(k), h / 2);
                var allowed = Math.Max(1e-3 * Math.Max(Math.Abs(heat[k]), layout.Warms[k].Element is Filament ? 0.1 : 10), 1e-9);
                worst = Math.Max(worst, Math.Abs(middle - foreseen[k]) / allowed);
            }
        }
        // A jump (a capacitor put across a source) is no smaller in a shorter step; the method damps it in one.
        var fine = worst <= 1 || (h <= JumpSeconds && double.IsFinite(worst));
        if (!settled || (options.FixedStep is null && !fine))
        {
            state.CopyTo(stepper.State, 0);
            volts.CopyTo(stepper.Volts, 0);
            heat.CopyTo(stepper.HeatStates, 0);
            stepper.SetHeat();
            if (options.FixedStep is not null || h < 1e-15) throw stepper.Stuck(t);
            return (h * (settled ? Math.Clamp(0.9 / Math.Cbrt(worst), 0.1, 0.9) : 0.25), false);
        }
        for (var k = 0; k < heat.Length; k++) stepper.HeatStates[k] = Warmed(layout.Warms[k].Element, heat[k], stepper.Watts(k), h);
        stepper.SetGlows();
        return (Math.Min(longest, h * Math.Clamp(0.9 / Math.Cbrt(Math.Max(worst, 1e-9)), 0.2, 4)), true);
    }

    private static double Share(Stepper stepper, int k, double least, TransientOptions options) =>
        Math.Abs(stepper.Error[k]) / (least + options.RelativeTolerance * Math.Abs(stepper.State[k]));

    /// <summary>Heat after a time under steady power: exponential Euler about the start (Hochbruck and Ostermann, Acta Numerica 2010, §2), stable at any step.</summary>
    private static double Warmed(Element element, double from, double watts, double seconds)
    {
        var small = 1e-6 * Math.Max(Math.Abs(from), 1);
        var rate = Heat.Rate(element, from, watts);
        var slope = Math.Min((Heat.Rate(element, from + small, watts) - rate) / small, 0) * seconds;
        return from + seconds * rate * (slope > -1e-9 ? 1 : (Math.Exp(slope) - 1) / slope);
    }

    private static void Begin(Layout layout, Stepper stepper, TransientOptions options)
    {
        foreach (var s in layout.Stores) stepper.State[s.State] = options.CapacitorVolts.GetValueOrDefault(s.Element.Name);
        foreach (var w in layout.Windings.Where(w => w.Element is Inductor)) stepper.State[w.State] = options.InductorAmperes.GetValueOrDefault(w.Element.Name);
        if (options.StartWarm)
            for (var k = 0; k < stepper.HeatStates.Length; k++) stepper.HeatStates[k] = layout.Warms[k].Element is Filament ? 1 : 0;
        stepper.SetHeat();
    }

    private static void Check(Network network, double seconds, TransientOptions options)
    {
        if (!(seconds > 0) || !double.IsFinite(seconds)) throw new ArgumentException("The time to follow must be above 0 s.", nameof(seconds));
        if (options.FixedStep is { } h && !(h > 0 && h <= seconds)) throw new ArgumentException("The fixed step must be above 0 s and at most the whole time.", nameof(options));
        if (options.RelativeTolerance is not (>= 1e-12 and <= 0.1)) throw new ArgumentException("The relative tolerance must be from 1e-12 to 0.1.", nameof(options));
        if (options.MostSteps < 1) throw new ArgumentException("One step or more must be allowed.", nameof(options));
        if (!(options.AbsoluteVolts > 0)) throw new ArgumentException("The absolute tolerance must be above 0 V.", nameof(options));
        if (options.LongestStep is { } l && !(l > 0)) throw new ArgumentException("The longest step must be above 0 s.", nameof(options));
        Named<Switch>(network, options.Switchings.Select(s => s.Name), "switch");
        Named<Capacitor>(network, options.CapacitorVolts.Keys, "capacitor");
        Named<Inductor>(network, options.InductorAmperes.Keys, "inductor");
        Named<Element>(network, options.Currents, "element");
        Named<Filament>(network, options.Heaters.Values, "filament");
        foreach (var name in options.Heaters.Keys)
            if (!network.Elements.Any(e => e.Name == name && e is (Diode or Triode or Pentode or Converter))) throw new ArgumentException($"No valve is called '{name}'.", nameof(options));
    }

    private static void Named<T>(Network network, IEnumerable<string> names, string sort) where T : Element
    {
        foreach (var name in names)
            if (!network.Elements.OfType<T>().Any(e => e.Name == name)) throw new ArgumentException($"No {sort} is called '{name}'.", nameof(names));
    }

    private static UnsolvableException Slow(Layout layout, Stepper stepper, TransientOptions options, double t, double seconds)
    {
        // What holds the step down: the store or winding with the largest error.
        var (worst, most) = ((Element?)null, -1.0);
        foreach (var s in layout.Stores) Note(s.Element, s.State, options.AbsoluteVolts);
        foreach (var w in layout.Windings) for (var p = 0; p < w.Windings.Length; p++) Note(w.Element, w.State + p, options.AbsoluteVolts * 1e-3);
        worst ??= layout.Network.Elements[0];
        var node = layout.Network.NodeNames[Terminals.Of(worst)[0]];
        return new(string.Create(CultureInfo.InvariantCulture, $"After {options.MostSteps} steps only {t:g4} s of {seconds:g4} s have passed; what changes fastest is '{worst.Name}' at node {node}. Ask for less time or a larger tolerance."), node, worst.Name, double.NaN);

        void Note(Element element, int state, double least)
        {
            var share = Share(stepper, state, least, options);
            if (share > most) (worst, most) = (element, share);
        }
    }
}
