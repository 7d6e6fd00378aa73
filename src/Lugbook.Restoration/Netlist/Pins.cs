using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Netlist;

/// <summary>An electrode on a node.</summary>
internal sealed record Pin(ElectrodeKind Kind, string Section, string Letters, int Node, string Lug);

/// <summary>A valve's electrodes by what they do.</summary>
internal sealed class Pins
{
    private readonly ImmutableArray<Pin> _all;
    private readonly string _class;

    private Pins(ImmutableArray<Pin> all, string valveClass) => (_all, _class) = (all, valveClass);

    public static Pins Of(NetBuilder net, PluggedValve valve) => new(
        [.. valve.Pins.SelectMany(p => p.Electrodes.Select(e => (p, e))).Select(x => net.Node(x.p.Lug) is { } n ? new Pin(x.e.Kind, Plain(x.e.Section), x.e.Letters, n, x.p.Lug) : null).OfType<Pin>()],
        valve.Type?.Class ?? "");

    // "t1" of a twin triode is section 1.
    private static string Plain(string section) => section.Length == 2 && section[0] == 't' ? section[1..] : section;

    private bool IsConverter => _class.Contains("converter", StringComparison.Ordinal) || _class.Contains("heptode", StringComparison.Ordinal) || _class.Contains("hexode", StringComparison.Ordinal);

    /// <summary>Plates of amplifying and rectifying systems, one a section. The anode grid of an old pentagrid is not among them.</summary>
    public ImmutableArray<Pin> Plates => [.. _all.Where(p => p.Kind == ElectrodeKind.Plate && p.Letters is not ("ga" or "a")).DistinctBy(p => p.Section)];

    /// <summary>The anode grid of an old pentagrid.</summary>
    public int? AnodeGrid => _all.FirstOrDefault(p => p.Letters == "ga")?.Node;

    /// <summary>Is it a frequency converter?</summary>
    public bool Converts => IsConverter;

    /// <summary>Plates of signal diodes.</summary>
    public ImmutableArray<Pin> Diodes => [.. _all.Where(p => p.Kind == ElectrodeKind.DiodePlate).DistinctBy(p => p.Section)];

    /// <summary>The cathode of a section, or the one that all share; a filament's end where there is none.</summary>
    public int? CathodeOf(string section) =>
        (First(ElectrodeKind.Cathode, section) ?? First(ElectrodeKind.Cathode, "") ?? _all.FirstOrDefault(p => p.Kind == ElectrodeKind.Cathode)
            ?? _all.LastOrDefault(p => p.Kind == ElectrodeKind.Filament))?.Node;

    /// <summary>The grid that carries a section's signal.</summary>
    public int? GridOf(string section)
    {
        var own = _all.Where(p => p.Kind == ElectrodeKind.ControlGrid && p.Section == section).ToArray();
        if (own.Length == 0 && section == "h") own = [.. _all.Where(p => p.Kind == ElectrodeKind.ControlGrid && p.Section.Length == 0)];
        return (own.FirstOrDefault(p => p.Letters is "g1" or "g") ?? own.FirstOrDefault())?.Node;
    }

    /// <summary>The screen of the section that has one: never that of the triode in the same bulb.</summary>
    public int? Screen(string section) => section is "t" or "1" or "2" ? null : _all.FirstOrDefault(p => p.Kind == ElectrodeKind.Screen)?.Node;

    /// <summary>Grid 1 of a converter.</summary>
    public int? Oscillator => IsConverter ? _all.FirstOrDefault(p => p.Letters == "g1")?.Node : null;

    /// <summary>Grid 3 of a converter.</summary>
    public int? Signal => IsConverter ? (_all.FirstOrDefault(p => p.Letters == "g3") ?? _all.FirstOrDefault(p => p.Letters == "g4"))?.Node : null;

    private Pin? First(ElectrodeKind kind, string section) => _all.FirstOrDefault(p => p.Kind == kind && p.Section == section);
}
