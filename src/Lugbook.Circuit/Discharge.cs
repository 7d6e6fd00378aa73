using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit;

/// <summary>How a set is left to discharge.</summary>
public sealed record DischargeOptions
{
    /// <summary>Volts within each capacitor named at switch-off, A to B: those of <see cref="SupplyState.Cycle"/>, or the peak that an unloaded supply reaches.</summary>
    public required ImmutableDictionary<string, double> CapacitorVolts { get; init; }
    /// <summary>The voltage that a node must fall below, V, either way from the reference; above 0.</summary>
    public double BelowVolts { get; init; } = 60;
    /// <summary>Given up after this time, s; above 0.</summary>
    public double MostSeconds { get; init; } = 3600;
    /// <summary>True: no valve conducts, as when cathodes are cold or a heater is open. False: valves conduct as if they stayed warm.</summary>
    /// <remarks>The true time lies between. For safety count on the cold one.</remarks>
    public bool ValvesCold { get; init; } = true;
}

/// <summary>How a set discharged.</summary>
/// <param name="Seconds">For each node asked for: when its voltage stays below the limit, s; null if it did not within the time.</param>
/// <param name="Course">All voltages until then.</param>
/// <param name="Joules">Where the energy went: J in each resistor, most first (trapezoidal rule over the moments kept).</param>
public sealed record DischargeResult(ImmutableDictionary<int, double?> Seconds, TimeCourse Course, ImmutableArray<(string Element, double Joules)> Joules);

/// <summary>What stays on the capacitors after the plug is pulled, and for how long.</summary>
/// <remarks>
/// A computed time is no permission to touch: a capacitor may be open from its bleeder, and one left alone recovers some of its charge.
/// Measure every time, and discharge through a resistor.
/// </remarks>
public static class Discharge
{
    /// <summary>Pulls the plug and waits until every named node is below a voltage.</summary>
    /// <param name="network">The set as it ran.</param>
    /// <param name="nodes">Nodes to watch; one or more.</param>
    /// <param name="options">Where it starts and what counts as discharged.</param>
    /// <exception cref="ArgumentException">A node or capacitor does not exist, or a value is out of range.</exception>
    /// <exception cref="UnsolvableException">A moment would not settle.</exception>
    /// <remarks>The line, batteries, drains and declared voltages are taken away. Currents in coils at the moment of switch-off are left out.</remarks>
    public static DischargeResult Of(Network network, ImmutableArray<int> nodes, DischargeOptions options)
    {
        if (nodes.IsDefaultOrEmpty) throw new ArgumentException("Name one node or more to watch.", nameof(nodes));
        foreach (var n in nodes)
            if (n < 0 || n >= network.NodeCount) throw new ArgumentException($"Node {n} does not exist; nodes run from 0 to {network.NodeCount - 1}.", nameof(nodes));
        if (!(options.BelowVolts > 0)) throw new ArgumentException("The voltage to fall below must be above 0 V.", nameof(options));
        if (!(options.MostSeconds > 0) || !double.IsFinite(options.MostSeconds)) throw new ArgumentException("The longest time must be above 0 s.", nameof(options));

        var left = new Network(network.NodeNames, network.Reference, network.Elements.Where(e => Remains(e, options.ValvesCold)));
        Resistor[] resistors = [.. left.Elements.OfType<Resistor>().Where(r => r.Ohms > 0 && double.IsFinite(r.Ohms))];
        var course = Transient.Of(left, options.MostSeconds, new()
        {
            CapacitorVolts = options.CapacitorVolts,
            RelativeTolerance = 1e-7,
            // Half of the limit, so that a node that climbs again through a dielectric's or another section's charge is seen.
            Until = volts => nodes.All(n => Math.Abs(volts[n]) < options.BelowVolts / 2),
        });
        return new(
            nodes.Distinct().ToImmutableDictionary(n => n, n => Below(course, n, options.BelowVolts)), course,
            [.. resistors.Select(r => (r.Name, Joules(course, r))).Where(r => r.Item2 > 0).OrderByDescending(r => r.Item2)]);
    }

    private static bool Remains(Element element, bool cold) => element switch
    {
        Mains or Battery or CurrentDrain or Declared => false,
        Triode or Pentode or Converter => !cold,
        Diode { Law.NeedsHeat: true } => !cold,
        _ => true,
    };

    /// <summary>Last moment at which the limit is passed downwards, by the exponential between two moments.</summary>
    private static double? Below(TimeCourse course, int node, double limit)
    {
        double At(int k) => Math.Abs(course.Volts[k][node]);
        var last = course.Seconds.Length - 1;
        if (At(last) >= limit) return null;
        while (last >= 0 && At(last) < limit) last--;
        if (last < 0) return 0;
        var (high, low) = (At(last), Math.Max(At(last + 1), 1e-12));
        return course.Seconds[last] + (course.Seconds[last + 1] - course.Seconds[last]) * Math.Log(high / limit) / Math.Log(high / low);
    }

    private static double Joules(TimeCourse course, Resistor r)
    {
        double sum = 0;
        double Watts(int k) => Math.Pow(course.Volts[k][r.A] - course.Volts[k][r.B], 2) / r.Ohms;
        for (var k = 1; k < course.Seconds.Length; k++) sum += (Watts(k) + Watts(k - 1)) / 2 * (course.Seconds[k] - course.Seconds[k - 1]);
        return sum;
    }
}
