using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Valves;

/// <summary>Reads a pinout as the handbook files write it: "1=g1;2=k,g3;cap=p".</summary>
public static class Pinouts
{
    /// <summary>Pins in order, the caps last.</summary>
    public static IComparer<string> PinOrder { get; } = Comparer<string>.Create((a, b) =>
        (Number(a), a).CompareTo((Number(b), b)));

    /// <summary>The pinout, or what is wrong with it.</summary>
    /// <param name="text">Pins divided by semicolons; several electrodes on one pin divided by commas.</param>
    /// <param name="valveClass">Class of the valve, to know what a digit means.</param>
    /// <param name="place">Where it stands, for the complaint.</param>
    public static (ImmutableSortedDictionary<string, ImmutableArray<string>> Pins, Complaint? Complaint) Read(string text, string valveClass, string place)
    {
        var pins = ImmutableSortedDictionary.CreateBuilder<string, ImmutableArray<string>>(PinOrder);
        var at = 0;
        foreach (var entry in text.Split(';'))
        {
            var equals = entry.IndexOf('=', StringComparison.Ordinal);
            var pin = equals < 0 ? "" : entry[..equals].Trim().ToLowerInvariant();
            if (pin.Length == 0 || (pin != "cap" && Number(pin) is < 1 or > 14))
                return (pins.ToImmutable(), new(place, text, at, "a pin is written as number=letters or cap=letters.", "Write it like 5=g1;8=k,bp;cap=p."));
            if (pins.ContainsKey(pin))
                return (pins.ToImmutable(), new(place, text, at, $"pin {pin} is given twice.", "Join its electrodes with a comma: 8=k,bp."));
            var electrodes = entry[(equals + 1)..].Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
                .Select(e => e.ToLowerInvariant()).ToImmutableArray();
            foreach (var electrode in electrodes)
                if (Electrodes.Of(electrode, valveClass) is null)
                    return (pins.ToImmutable(), new(place, text, at + entry.IndexOf(electrode, StringComparison.OrdinalIgnoreCase),
                        $"'{electrode}' is not an electrode.", "Use p, k, g, g1 to g5, d1, h, hct, htap, f, bp, is, shell, nc, ic, jumper, ga or a."));
            if (electrodes.IsEmpty)
                return (pins.ToImmutable(), new(place, text, at, $"pin {pin} has no electrode.", "Leave the pin out, or write nc."));
            pins[pin] = electrodes;
            at += entry.Length + 1;
        }
        return (pins.ToImmutable(), null);
    }

    private static int Number(string pin) =>
        int.TryParse(pin, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : int.MaxValue;
}
