using System.Collections.Immutable;
using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;
using Lugbook.Restoration.Map;
using Parameter = Lugbook.Circuit.Parameter;

namespace Lugbook.Restoration.Netlist;

/// <summary>Valves: one element an electrode system.</summary>
internal static class ValveElements
{
    /// <summary>Cold over hot resistance of a heater; common practice, no source.</summary>
    public const double HeaterColdShare = 1.0 / 7;
    /// <summary>Time constant of warming, s; common practice, no source.</summary>
    public const double WarmUpSeconds = 8;

    public static void Add(NetBuilder net, PluggedValve valve, ValveLibrary library, DeclaredNodes declared)
    {
        var name = valve.Part.Name;
        if (valve.Socket is null || valve.Pins.IsEmpty)
        {
            net.Unknown(name, $"{name} ({valve.Part.Marked ?? "type not entered"}) has no socket with known pins, so it is left out.");
            return;
        }
        HeaterElements.Add(net, valve);
        var pins = Pins.Of(net, valve);
        if (valve.Type?.Class == "picture tube" || pins.Plates.IsEmpty && pins.Diodes.IsEmpty) return;
        var data = Data(valve, library);
        if (valve.Type?.Class == "regulator") Regulator(net, valve, pins);
        else
        {
            foreach (var plate in pins.Plates) System(net, valve, pins, plate, data, declared);
            foreach (var diode in pins.Diodes) SignalDiode(net, valve, pins, diode);
        }
    }

    private static FittedValve? Data(PluggedValve valve, ValveLibrary library)
    {
        string?[] names = [valve.Part.Marked?.TrimEnd('?', ' '), valve.Type?.Type, .. valve.Type?.Equivalents ?? []];
        return names.OfType<string>().Where(n => n.Length > 0).Select(library.Find).FirstOrDefault(v => v is { Sections.IsEmpty: false });
    }

    private static void System(NetBuilder net, PluggedValve valve, Pins pins, Pin plate, FittedValve? data, DeclaredNodes declared)
    {
        var name = valve.Part.Name;
        var section = plate.Section;
        var cathode = pins.CathodeOf(section);
        var what = section.Length == 0 ? "" : $"section {section}";
        var element = section.Length == 0 ? name : $"{name}/{section}";
        if (cathode is null)
        {
            net.Unknown(name, $"{name}: no cathode lies on a known lug, so its {(what.Length == 0 ? "currents are" : what + " is")} left out.");
            return;
        }
        var grid = pins.GridOf(section);
        var found = SectionOf(data, section, wantsDiode: grid is null && pins.Screen(section) is null);
        if (found?.Diode is { } law)
        {
            var added = net.Add(new Diode(element, plate.Node, cathode.Value, law), name, what);
            net.Valves.Add(new(added, name, section, data!.Type, data.NewSpread, []));
            net.Spreads.Add(new(added, Parameter.Perveance, law.Perveance, law.Perveance * 0.8, law.Perveance * 1.2, SpreadCause.Valve, Geometric: true));
            return;
        }
        if (declared.IsDeclared(cathode.Value) && cathode.Value != net.Map.Common.Node?.Index)
        {
            Pulsed(net, name, element, what, plate.Node, cathode.Value, [grid, pins.Screen(section)], declared);
            return;
        }
        if (found?.Fit is not { } fit || Element(net, element, pins, plate, grid, cathode.Value, fit, declared, name) is not { } made)
        {
            StandIn(net, valve, element, what, plate.Node, cathode.Value, grid is null, pins.Screen(section), pins);
            return;
        }
        var (law2, k) = made;
        var one = net.Add(law2, name, what);
        net.Valves.Add(new(one, name, section, data!.Type, data.NewSpread, fit.Weak));
        net.Spreads.Add(new(one, Parameter.Perveance, k, k / (1 + data.NewSpread), k * (1 + data.NewSpread), SpreadCause.Valve, Geometric: true));
    }

    private static (Element Element, double K)? Element(
        NetBuilder net, string element, Pins pins, Pin plate, int? grid, int cathode, FittedLaw fit, DeclaredNodes declared, string name)
    {
        if (grid is not { } g) return null;
        if (fit.Triode is { } t) return (new Triode(element, plate.Node, g, cathode, t), t.Perveance);
        if (fit.Pentode is { } p)
            return (new Pentode(element, plate.Node, pins.Screen(plate.Section) ?? plate.Node, g, cathode, p), p.Perveance);
        if (fit.Converter is { } c && pins.Screen(plate.Section) is { } screens && pins.Oscillator is { } oscillator && pins.Signal is { } signal)
        {
            var peak = OscillatorPeak.Of(net, c, oscillator, cathode, declared, name);
            return (new Converter(element, plate.Node, screens, signal, oscillator, cathode, c, peak), c.Perveance);
        }
        return null;
    }

    private static ValveSection? SectionOf(FittedValve? data, string section, bool wantsDiode)
    {
        if (data is null) return null;
        var fitting = data.Sections.Where(s => wantsDiode ? s.Diode is not null && !s.Name.StartsWith('d') : s.Fit is not null).ToArray();
        string[] names = section switch { "t" => ["triode"], "h" => ["heptode"], "" => ["", "pentode", "heptode", "1"], _ => [section] };
        return names.Select(n => fitting.FirstOrDefault(s => s.Name == n)).FirstOrDefault(s => s is not null)
            ?? (fitting.Length == 1 || section is "1" or "2" ? fitting.FirstOrDefault(s => s.Name is "" or "1" or "2") : null);
    }

    /// <summary>A valve whose cathode volts are declared works on pulses: its law does not know their mean, its neighbours do.</summary>
    private static void Pulsed(NetBuilder net, string valve, string element, string what, int plate, int cathode, int?[] grids, DeclaredNodes declared)
    {
        if (declared.IsDeclared(plate)) return;
        var drain = net.Add(new CurrentDrain(element, plate, net.Map.Common.Node!.Index, 0), valve, what);
        net.Balances.Add(new(drain, BalanceKind.PlateCurrent, [cathode, .. grids.OfType<int>().Where(declared.IsDeclared)], 0));
    }

    private static void StandIn(NetBuilder net, PluggedValve valve, string element, string what, int plate, int cathode, bool isDiode, int? screen, Pins pins)
    {
        var name = valve.Part.Name;
        var type = valve.Part.Marked ?? "type not entered";
        if (isDiode)
        {
            var law = DiodeLaw.Vacuum(20, 0.1);
            var rectifier = net.Add(new Diode(element, plate, cathode, law), name, what);
            net.Guess(rectifier, Parameter.Perveance, law.Perveance, law.Perveance / 4, law.Perveance * 4);
            net.Unknown(name, $"{name} ({type}): no drop is known, so 20 V at 100 mA stands in for it, within a factor of four.", rectifier);
            return;
        }
        if (OldPentagrid(net, valve, element, plate, cathode, screen, pins)) return;
        var elements = ImmutableArray.CreateBuilder<string>();
        foreach (var (node, ohms, words) in new (int?, double, string)[] { (plate, 50e3, "plate"), (screen, 200e3, "screen") })
        {
            if (node is not { } n || n == cathode) continue;
            elements.Add(net.Add(new Resistor($"{element} {words}", n, cathode, ohms), name, $"{what} {words} current".Trim()));
            net.Guess(elements[^1], Parameter.Ohms, ohms, ohms / 10, ohms * 100);
            net.WarmOnly.Add(elements[^1]);
        }
        net.Unknown(name, $"{name} ({type}): no handbook line is known, so its currents may be anything. Give lines of its data sheet with --valves (docs/valves.md, \"A type of your own\").", elements.ToImmutable());
    }

    // From memory of the receiving-tube handbook (6A7, 6A8): 3.5 mA from a plate at 250 V, 2.7 mA from screens at 100 V, 4 mA from an anode grid that a feed leaves some 170 V, the oscillator running.
    private static bool OldPentagrid(NetBuilder net, PluggedValve valve, string element, int plate, int cathode, int? screen, Pins pins)
    {
        if (!pins.Converts || pins.AnodeGrid is not { } anode || valve.Type?.HeaterVolts is not >= 2.4) return false;
        var name = valve.Part.Name;
        var elements = ImmutableArray.CreateBuilder<string>();
        foreach (var (node, ohms, words) in new (int?, double, string)[] { (plate, 71e3, "plate"), (screen, 37e3, "screen"), (anode, 42e3, "anode grid") })
        {
            if (node is not { } n || n == cathode) continue;
            elements.Add(net.Add(new Resistor($"{element} {words}", n, cathode, ohms), name, $"{words} current"));
            net.Guess(elements[^1], Parameter.Ohms, ohms, ohms / 1.5, ohms * 1.5);
            net.WarmOnly.Add(elements[^1]);
        }
        net.Unknown(name, $"{name} ({valve.Part.Marked}): no law is known for a pentagrid with an anode grid, so the handbook's usual currents stand in for it, within half as much again either way.", elements.ToImmutable());
        return true;
    }

    private static void SignalDiode(NetBuilder net, PluggedValve valve, Pins pins, Pin diode)
    {
        if (pins.CathodeOf(diode.Section) is not { } cathode || cathode == diode.Node) return;
        var name = net.Add(new Diode($"{valve.Part.Name}/d{diode.Section}", diode.Node, cathode, DiodeLaw.SignalPlate()), valve.Part.Name, $"diode {diode.Section}".Trim());
        net.Valves.Add(new(name, valve.Part.Name, $"d{diode.Section}", valve.Type?.Type ?? valve.Part.Marked ?? "", 0, []));
    }

    private static void Regulator(NetBuilder net, PluggedValve valve, Pins pins)
    {
        if (pins.Plates.FirstOrDefault() is not { } plate || pins.CathodeOf("") is not { } cathode) return;
        // From memory: running volts by type; they strike at about a fifth more, and slope by some 100 Ω over their range.
        double? run = (valve.Type?.Type.ToUpperInvariant() ?? "") switch
        {
            "OA2" or "0A2" or "OD3" or "0D3" => 150,
            "OB2" or "0B2" => 108,
            "OC3" or "0C3" => 105,
            "OA3" or "0A3" => 75,
            "OB3" or "0B3" => 90,
            _ => null,
        };
        if (run is { } volts) net.Add(new GasRegulator(valve.Part.Name, plate.Node, cathode, volts, 100, 1.2 * volts), valve.Part.Name);
        else net.Unknown(valve.Part.Name, $"{valve.Part.Name} ({valve.Part.Marked}): its running voltage is not known, so it is left out.");
    }
}
