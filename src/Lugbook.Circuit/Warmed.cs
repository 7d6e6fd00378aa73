using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Powering;
using Lugbook.Circuit.Time;

namespace Lugbook.Circuit;

/// <summary>A set whose cathodes are as warm as the line lets their own heaters be.</summary>
/// <param name="Cycle">The cycle that repeats itself.</param>
/// <param name="Emission">How far each valve's cathode lets it conduct, by valve: 1 at rated heat, 0 cold.</param>
/// <param name="HeaterShare">Rms volts over rated volts, by filament that heats a valve.</param>
public sealed record WarmedState(SupplyState Cycle, ImmutableDictionary<string, double> Emission, ImmutableDictionary<string, double> HeaterShare);

/// <summary>Joins heaters, cathodes and supply: at a low line, or behind a lamp, cathodes are cool, rectifier valves pass little, and so the load is less.</summary>
public static class Warmed
{
    private const int MostRounds = 12;
    private const double Settled = 5e-3;
    /// <summary>The least share that is told from cold.</summary>
    private const double Least = 1e-9;

    /// <summary>The state that lasts once everything is as warm as it gets.</summary>
    /// <param name="network">The set with its line, every valve as if it were warm.</param>
    /// <param name="heaters">Which filament heats which valve (valve's name, filament's name). Valves not named are taken as warm.</param>
    /// <param name="options">How the cycle is followed.</param>
    /// <param name="near">A state that is near, of this network or one like it; the search begins there.</param>
    /// <exception cref="ArgumentException">No line, or a name that is none.</exception>
    /// <exception cref="UnsolvableException">The cycle does not settle.</exception>
    /// <remarks>Cycle and emission in turn, each emission by the secant of its last two, until no emission changes by more than half a per cent.</remarks>
    public static WarmedState Of(Network network, ImmutableDictionary<string, string> heaters, PoweredOptions? options = null, WarmedState? near = null)
    {
        var reduced = Reduction.Of(network, options ?? new());
        var filaments = Filaments(network, heaters);
        var how = How(reduced, options) with { Near = near?.Cycle };
        var emission = heaters.Keys.ToImmutableDictionary(v => v, v => near?.Emission.GetValueOrDefault(v, 1) ?? 1);
        (ImmutableDictionary<string, double> From, ImmutableDictionary<string, double> Moved)? before = null;
        for (var round = 1; ; round++)
        {
            var cycle = Supply.SteadyState(Cooled(reduced, emission), how);
            how = how with { Near = cycle };
            var next = heaters.ToImmutableDictionary(h => h.Key, h => Time.Emission.Share(Heat.AtRest(filaments[h.Value], Watts(cycle, filaments[h.Value]))));
            var moved = next.ToImmutableDictionary(n => n.Key, n => n.Value - emission[n.Key]);
            if (moved.Values.All(m => Math.Abs(m) < Settled) || round == MostRounds)
                return new(cycle, emission, filaments.ToImmutableDictionary(f => f.Key, f => Rms(cycle, f.Value) / f.Value.RatedVolts));
            var from = emission;
            emission = from.ToImmutableDictionary(e => e.Key, e => Math.Max(e.Value - moved[e.Key] / Slope(e.Value, moved[e.Key], before?.From[e.Key], before?.Moved[e.Key]), 0));
            before = (from, moved);
        }
    }

    // More emission loads the line and cools the heaters: what is asked for falls as emission grows, so the change falls by one or more.
    private static double Slope(double emission, double moved, double? from, double? before) =>
        from is { } f && before is { } b && emission != f ? Math.Clamp((moved - b) / (emission - f), -8, -0.7) : -1;

    /// <summary>The state at a moment while heaters warm up: each filament named has the resistance of its heat, whatever it draws.</summary>
    /// <param name="network">As in <see cref="Of"/>.</param>
    /// <param name="heaters">As in <see cref="Of"/>.</param>
    /// <param name="rises">Heat of each filament and thermistor that is slow: share of the rated rise in temperature for a filament, kelvin above 25 °C for a thermistor.</param>
    /// <param name="options">How the cycle is followed.</param>
    /// <param name="near">The moment before.</param>
    internal static WarmedState During(Network network, ImmutableDictionary<string, string> heaters, IReadOnlyDictionary<string, double> rises, PoweredOptions? options, WarmedState? near)
    {
        Network still = new(network.NodeNames, network.Reference, network.Elements.Select(e => e switch
        {
            Filament f when rises.TryGetValue(f.Name, out var u) => new Resistor(f.Name, f.A, f.B, Math.Max(Heat.Ohms(f, u), 1e-3)),
            Thermistor t when rises.TryGetValue(t.Name, out var k) => new Resistor(t.Name, t.A, t.B, Heat.Ohms(t, k)),
            _ => e,
        }));
        var reduced = Reduction.Of(still, options ?? new());
        var filaments = Filaments(network, heaters);
        var emission = heaters.ToImmutableDictionary(h => h.Key, h => Time.Emission.Share(rises.GetValueOrDefault(h.Value, 1)));
        var cycle = Supply.SteadyState(Cooled(reduced, emission), How(reduced, options) with { Near = near?.Cycle });
        return new(cycle, emission, filaments.ToImmutableDictionary(f => f.Key, f => Rms(cycle, f.Value) / f.Value.RatedVolts));
    }

    /// <summary>Rms volts across an element of two terminals.</summary>
    internal static double Rms(SupplyState cycle, Filament f) => Rms(cycle, f.A, f.B);

    internal static double Rms(SupplyState cycle, int a, int b)
    {
        double sum = 0;
        var (seconds, volts) = (cycle.Cycle.Seconds, cycle.Cycle.Volts);
        for (var k = 1; k < volts.Length; k++) sum += Math.Pow(volts[k][a] - volts[k][b], 2) * (seconds[k] - seconds[k - 1]);
        return Math.Sqrt(sum / (seconds[^1] - seconds[0]));
    }

    // At rest its resistance follows from its power, so volts alone tell: P = V·I with I by the filament's own law.
    private static double Watts(SupplyState cycle, Filament f) => Rms(cycle, f) * (cycle.Currents.GetValueOrDefault(f.Name)?.Rms ?? 0);

    private static Dictionary<string, Filament> Filaments(Network network, ImmutableDictionary<string, string> heaters)
    {
        var found = network.Elements.OfType<Filament>().Where(f => heaters.ContainsValue(f.Name)).ToDictionary(f => f.Name, StringComparer.Ordinal);
        foreach (var (valve, filament) in heaters)
            if (!found.ContainsKey(filament)) throw new ArgumentException($"The heater of '{valve}', '{filament}', is not in the network.", nameof(heaters));
        return found;
    }

    private static SupplyOptions How(Network reduced, PoweredOptions? options) =>
        new() { StepsPerCycle = options?.StepsPerCycle ?? 256, Tolerance = 1e-5, Currents = Reduction.Followed(reduced) };

    /// <summary>The network with every valve passing its share.</summary>
    private static Network Cooled(Network network, ImmutableDictionary<string, double> emission) => new(network.NodeNames, network.Reference, network.Elements.Select(e =>
    {
        if (!emission.TryGetValue(e.Name, out var share) || share is > 0.999 and < 1.001) return e;
        var k = Math.Max(share, Least);
        return e switch
        {
            Triode t => t with { Law = t.Law with { Perveance = t.Law.Perveance * k, GridPerveance = t.Law.GridPerveance * k } },
            Pentode p => p with { Law = p.Law with { Perveance = p.Law.Perveance * k, GridPerveance = p.Law.GridPerveance * k } },
            Converter c => c with { Law = c.Law with { Perveance = c.Law.Perveance * k, GridPerveance = c.Law.GridPerveance * k } },
            Diode { Law.NeedsHeat: true } d => d with { Law = d.Law with { Perveance = d.Law.Perveance * k } },
            _ => e,
        };
    }));
}
