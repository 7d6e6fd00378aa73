using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Trace;

/// <summary>What a valve can do wrong.</summary>
/// <param name="netlist">The set.</param>
/// <param name="elements">Its elements by name.</param>
/// <param name="priors">How often each is met.</param>
internal sealed class ValveFaults(NetlistResult netlist, IReadOnlyDictionary<string, Element> elements, PriorTable priors)
{
    // A valve that gasses passes some microamperes to its grid (common practice, no source); electrodes that touch, some tens of ohms.
    private static readonly double[] GridAmperes = [0.3e-6, 1e-6, 4e-6, 15e-6];
    private const double TouchOhms = 50;

    /// <summary>Faults of one valve with all its systems.</summary>
    public IEnumerable<Fault> Of(string valve, ValveElement[] systems)
    {
        var laws = systems.Select(s => elements.GetValueOrDefault(s.Element)).OfType<Element>().ToArray();
        var exchange = $"Exchange {valve} for one known to be good.";
        var rectifies = laws.Length > 0 && laws.All(l => l is Diode) && !laws.All(l => l.Name.Contains("/d", StringComparison.Ordinal));
        var family = rectifies ? "rectifier" : "valve";
        foreach (var system in systems)
        {
            if (system.Section.StartsWith('d') || elements.GetValueOrDefault(system.Element) is not { } law || Emitting(law, 1) is null) continue;
            var section = systems.Length > 1 && system.Section.Length > 0 ? $" section {system.Section}" : "";
            double[] shares = [0.6, 0.4, 0.2];
            yield return Make(FaultKind.Weak, "weak", section, $"{valve}{section} weak", exchange, [.. shares.Select(k => new FaultSize($"{k * 100:0} % of its emission", 1.0 / shares.Length, Math.Log(k), Instead(Emitting(law, k)!)))]);
            if (Grid(law) is not var (grid, cathode, plate)) continue;
            yield return Make(FaultKind.GridCurrent, "gridcurrent", section, $"{valve}{section} takes grid current", exchange,
                [.. GridAmperes.Select(i => new FaultSize($"{i * 1e6:0.#} µA", 1.0 / GridAmperes.Length, Math.Log(i), new() { Further = [new CurrentDrain("fault", plate, grid, i)] }))]);
            if (grid != cathode)
                yield return Make(FaultKind.Touching, "touching", section, $"{valve}{section}: grid touches cathode", exchange, [new("", 1, 0, new() { Further = [new Resistor("fault", grid, cathode, TouchOhms)] })], "grid");
        }
        var dead = laws.Select(l => Emitting(l, 1e-9)).OfType<Element>().ToImmutableArray();
        if (!dead.IsEmpty) yield return Make(FaultKind.Dead, "dead", "", $"{valve} dead: heater, emission or socket", $"Look whether {valve} glows; exchange it.", [new("", 1, 0, new() { Instead = dead })]);
        if (netlist.Heaters.TryGetValue(systems[0].Valve, out var heater) && elements.GetValueOrDefault(heater) is Filament f && laws.Select(Cathode).FirstOrDefault(c => c is not null) is { } k && k != f.A && k != f.B)
            yield return Make(FaultKind.Touching, "touching", "", $"{valve}: heater touches cathode", exchange, [new("", 1, 0, new() { Further = [new Resistor("fault", f.A, k, TouchOhms)] })], "heater");

        Fault Make(FaultKind kind, string word, string section, string words, string act, ImmutableArray<FaultSize> sizes, string what = "")
        {
            var prior = priors.Of(word is "weak" or "dead" ? family : "valve", word);
            return new() { Id = $"{valve}{section} {(what.Length > 0 ? $"{what} " : "")}{(word == "gridcurrent" ? "grid current" : word)}", Kind = kind, Position = valve, Words = words, Act = act, Weight = prior.Weight / (word == "weak" ? Math.Max(1, systems.Count(s => !s.Section.StartsWith('d'))) : 1), Why = prior.Why, Sizes = sizes };
        }

        static SlipChange Instead(Element element) => new() { Instead = [element] };
    }

    /// <summary>The valve with so much of its emission.</summary>
    private static Element? Emitting(Element law, double share) => law switch
    {
        Triode e => e with { Law = e.Law with { Perveance = e.Law.Perveance * share } },
        Pentode e => e with { Law = e.Law with { Perveance = e.Law.Perveance * share } },
        Converter e => e with { Law = e.Law with { Perveance = e.Law.Perveance * share } },
        Diode e => e with { Law = e.Law with { Perveance = e.Law.Perveance * share } },
        _ => null,
    };

    private static (int Grid, int Cathode, int Plate)? Grid(Element law) => law switch
    {
        Triode e => (e.Grid, e.Cathode, e.Plate),
        Pentode e => (e.Grid, e.Cathode, e.Plate),
        Converter e => (e.Signal, e.Cathode, e.Plate),
        _ => null,
    };

    private static int? Cathode(Element law) => law switch { Triode e => e.Cathode, Pentode e => e.Cathode, Converter e => e.Cathode, Diode e => e.Cathode, _ => null };
}
