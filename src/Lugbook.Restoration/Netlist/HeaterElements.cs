using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Netlist;

/// <summary>Heaters and filaments, with their taps.</summary>
internal static class HeaterElements
{
    // The lamp tap of a series-string rectifier stands at about 7.5 V of 35 V: receiving-tube handbook, from memory.
    private const double LampShare = 7.5 / 35;

    public static void Add(NetBuilder net, PluggedValve valve)
    {
        var name = valve.Part.Name;
        var direct = valve.With(ElectrodeKind.Filament).ToArray();
        var ends = direct.Length >= 2 ? direct : [.. valve.With(ElectrodeKind.Heater)];
        if (ends.Length < 2) return;
        if (valve.Type is not { HeaterVolts: { } volts and > 0, HeaterAmperes: { } amperes and > 0 })
        {
            net.Unknown(name, $"{name} ({valve.Part.Marked ?? "type not entered"}): its heater's volts and current are not known, so nothing in its heater string can be told.");
            return;
        }
        var warmUp = direct.Length >= 2 ? 1 : ValveElements.WarmUpSeconds;
        var taps = valve.With(ElectrodeKind.HeaterTap).ToArray();
        if (taps.Length == 0)
        {
            Part(net, name, "heater", ends[0], ends[^1], volts, amperes, warmUp);
            return;
        }
        var tap = taps[0];
        var lamp = tap.Electrodes.Any(e => e.Letters is "htap" or "ftap");
        // The lamp's end is the one whose pin stands next to the tap's.
        var near = !lamp || Math.Abs((ends[0].Pin ?? 0) - (tap.Pin ?? 0)) <= Math.Abs((ends[^1].Pin ?? 0) - (tap.Pin ?? 0));
        var (first, last) = near ? (ends[0], ends[^1]) : (ends[^1], ends[0]);
        var share = lamp ? LampShare : 0.5;
        // A heater with a centre tap whose two ends are joined runs with its halves side by side at half the volts each.
        Part(net, name, lamp ? "heater, lamp part" : "heater, first half", first, tap, share * volts, amperes, warmUp);
        Part(net, name, lamp ? "heater, rest" : "heater, second half", tap, last, (1 - share) * volts, amperes, warmUp);
    }

    private static void Part(NetBuilder net, string valve, string what, ValvePin from, ValvePin to, double volts, double amperes, double warmUp)
    {
        if (net.Node(from.Lug) is not { } a || net.Node(to.Lug) is not { } b || a == b) return;
        var element = net.Add(new Filament($"{valve} {what}", a, b, volts, amperes, ValveElements.HeaterColdShare, warmUp), valve, what);
        net.Heaters.TryAdd(valve, element);
    }
}
