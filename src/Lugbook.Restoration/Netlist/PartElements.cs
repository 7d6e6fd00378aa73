using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Netlist;

/// <summary>Everything but windings, valves and the line.</summary>
internal static class PartElements
{
    // Loss of a good electrolytic at 120 Hz; common practice, no source.
    private const double ElectrolyticLoss = 0.1;
    private const double LossHertz = 120;
    private const double LampColdShare = 0.1;

    public static void Add(NetBuilder net, Part part)
    {
        switch (part.Kind)
        {
            case PartKind.Valve or PartKind.Winding: break;
            case PartKind.Control: Control(net, part); break;
            case PartKind.SubUnit: SubUnit(net, part); break;
            case PartKind.Other:
                net.Unknown(part.Name, $"{part.Name} is a '{part.KindAsWritten}', a kind that is not known here, so it is left out.");
                break;
            default:
                if (net.Ends(part) is not var (a, b)) break;
                if (a == b) break;                          // both leads on one node: the map says so, the currents do not care
                Between(net, part, a, b);
                break;
        }
    }

    private static void Between(NetBuilder net, Part part, int a, int b)
    {
        if (part.Kind.IsCapacitor()) Capacitor(net, part, a, b);
        else if (part.Kind.IsRectifier()) Rectifier(net, part, a, b);
        else if (part.Kind == PartKind.Resistor) Resistor(net, part, a, b);
        else if (part.Kind == PartKind.Fuse) net.Add(new Fuse(part.Name, a, b, FuseOhms(part)), part.Name);
        else if (part.Kind == PartKind.Switch) net.Add(new Switch(part.Name, a, b, true), part.Name);
        else if (part.Kind == PartKind.Lamp) Lamp(net, part, a, b);
        else if (part.Kind == PartKind.Speaker) Speaker(net, part, a, b);
        else if (part.Kind == PartKind.Thermistor) Thermistor(net, part, a, b);
    }

    private static void Resistor(NetBuilder net, Part part, int a, int b)
    {
        if (part.Value is { } ohms and > 0)
        {
            net.Tolerance(net.Add(new Resistor(part.Name, a, b, ohms), part.Name), part, ohms);
            return;
        }
        var name = net.Add(new Resistor(part.Name, a, b, 47e3), part.Name);
        net.Guess(name, Parameter.Ohms, 47e3, 100, 10e6);
        net.Unknown(part.Name, $"{part.Name}'s value is not entered: anything from 100 Ω to 10 MΩ is allowed for.", name);
    }

    private static void Control(NetBuilder net, Part part)
    {
        var (a, b, c) = (net.Node(part.LeadA), net.Node(part.LeadB), net.Node(part.LeadC));
        var ohms = part.Value is { } v and > 0 ? v : 500e3;
        string name;
        if (a is { } p && b is { } q && c is { } s) name = net.Add(new Control(part.Name, p, q, s, ohms, 0.5), part.Name);
        else if ((a ?? b) is { } end && (c ?? b) is { } other && end != other)
        {
            // Two leads: the whole track, or from one end to the slider.
            var whole = c is null;
            name = net.Add(new Resistor(part.Name, end, other, whole ? ohms : ohms / 2), part.Name);
            if (!whole) net.Spreads.Add(new(name, Parameter.Ohms, ohms / 2, ohms * 0.02, ohms, SpreadCause.Setting));
            else net.Tolerance(name, part, ohms);
            if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s value is not entered: 500 kΩ is taken.", name);
            return;
        }
        else
        {
            net.Unknown(part.Name, $"{part.Name} has not two leads on known lugs, so it is left out.");
            return;
        }
        // Of a control either its resistance or its setting can vary in one sample; the setting counts more.
        net.Spreads.Add(new(name, Parameter.Position, 0.5, 0.02, 0.98, SpreadCause.Setting));
        if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s value is not entered: 500 kΩ is taken.", name);
    }

    private static void Capacitor(NetBuilder net, Part part, int a, int b)
    {
        var electrolytic = part.Kind == PartKind.Electrolytic;
        var farads = part.Value is { } v and > 0 ? v : electrolytic ? 10e-6 : 10e-9;
        var series = electrolytic ? ElectrolyticLoss / (2 * Math.PI * LossHertz * farads) : 0;
        var (plus, minus) = part.PlusLead == 'b' ? (b, a) : (a, b);
        net.Add(new Capacitor(part.Name, plus, minus, farads, series), part.Name);
        if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s value is not entered: {(electrolytic ? "10 µF" : "10 nF")} is taken; it matters for ripple and capacitance, not for direct volts.");
    }

    private static void Rectifier(NetBuilder net, Part part, int a, int b)
    {
        if (part.PlusLead is null)
        {
            net.Unknown(part.Name, $"{part.Name}: which lead is its cathode is not entered, so it is left out.");
            return;
        }
        var (anode, cathode) = part.PlusLead == 'a' ? (b, a) : (a, b);
        var law = part.Kind switch
        {
            PartKind.SiliconRectifier => DiodeLaw.Silicon(),
            PartKind.CrystalDiode => DiodeLaw.Germanium(),
            // 26 V of alternating voltage a plate: common practice, no source.
            PartKind.SeleniumRectifier => DiodeLaw.Selenium(Math.Max(1, (int)Math.Round((part.RatedVolts ?? 130) / 26)), Words.Amperes(part) ?? 0.1),
            _ => DiodeLaw.Selenium(1, 0.001),
        };
        net.Add(new Diode(part.Name, anode, cathode, law), part.Name);
    }

    private static void Lamp(NetBuilder net, Part part, int a, int b)
    {
        var volts = part.RatedVolts ?? 6.3;
        var amperes = part.RatedWatts is { } w and > 0 ? w / volts : part.Value is { } ohms and > 0 ? volts / ohms : 0.15;
        if (part is { RatedWatts: null, Value: null }) net.Unknown(part.Name, string.Create(CultureInfo.InvariantCulture, $"{part.Name}'s rating is not entered: {volts:0.#} V, 0.15 A is taken."));
        net.Add(new Filament(part.Name, a, b, volts, amperes, LampColdShare, 0), part.Name);
    }

    private static void Speaker(NetBuilder net, Part part, int a, int b)
    {
        if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s resistance is not entered: 3 Ω is taken.");
        net.Add(new Resistor(part.Name, a, b, part.Value is { } v and > 0 ? v : 3), part.Name);
    }

    private static void Thermistor(NetBuilder net, Part part, int a, int b)
    {
        if (part.Value is null) net.Unknown(part.Name, $"{part.Name}'s cold resistance is not entered: 200 Ω is taken.");
        // Series-string thermistors: B about 3,000 K, 10 mW/K, a minute to warm; common practice, no source.
        net.Add(new Thermistor(part.Name, a, b, part.Value is { } v and > 0 ? v : 200, 3000, 0.01, 0.6), part.Name);
    }

    // About a tenth of a volt across a fuse at its rating: common practice, no source.
    private static double FuseOhms(Part part) => Math.Clamp(0.1 / (Words.Amperes(part) ?? 1), 0.01, 10);

    private static void SubUnit(NetBuilder net, Part part)
    {
        if (net.Ends(part) is not var (a, b) || a == b) return;
        if (part is not { Value: > 0, Unit: not null })
        {
            net.Unknown(part.Name, $"What {part.Name} looks like from its lugs is not entered, so it is left out.");
            return;
        }
        if (part.Unit == Unit.Farad) net.Add(new Capacitor(part.Name, a, b, part.Value.Value), part.Name);
        else if (Words.IsHeater(part))
        {
            if (Words.Amperes(part) is { } amperes) net.Add(new Filament(part.Name, a, b, amperes * part.Value.Value, amperes, ValveElements.HeaterColdShare, ValveElements.WarmUpSeconds), part.Name);
            else net.Tolerance(net.Add(new Resistor(part.Name, a, b, part.Value.Value), part.Name), part, part.Value.Value);
        }
        else
        {
            var name = net.Add(new Resistor(part.Name, a, b, part.Value.Value), part.Name);
            net.Tolerance(name, part, part.Value.Value);
            if (Words.IsWarmOnly(part)) net.WarmOnly.Add(name);
        }
    }
}
