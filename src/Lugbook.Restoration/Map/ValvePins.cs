using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map;

/// <summary>A valve of the book with its handbook line, its socket and its pins.</summary>
/// <param name="Part">The valve.</param>
/// <param name="Type">Its handbook line; null when the type is unknown.</param>
/// <param name="Socket">The mount it plugs into; null when there is none.</param>
/// <param name="Pins">Its pins, from the handbook, else from the words on the socket.</param>
internal sealed record PluggedValve(Part Part, ValveType? Type, Mount? Socket, ImmutableArray<ValvePin> Pins)
{
    public IEnumerable<ValvePin> With(params ElectrodeKind[] kinds) => Pins.Where(p => p.Electrodes.Any(e => kinds.Contains(e.Kind)));
}

/// <summary>Which electrode is on which lug.</summary>
internal static class ValvePins
{
    public static ImmutableArray<PluggedValve> Of(Book book, ValveHandbook handbook) =>
        [.. book.Parts.Where(p => p.Kind == PartKind.Valve).Select(v => Plug(book, handbook, v))];

    /// <summary>A cap's lug has "cap" as its name after the dash, or "cap" in its function; its number is no pin.</summary>
    public static bool IsCap(Lug lug) =>
        lug.Name.EndsWith("cap", StringComparison.OrdinalIgnoreCase)
        || (lug.No is null && lug.Function?.Contains("cap", StringComparison.OrdinalIgnoreCase) == true);

    private static PluggedValve Plug(Book book, ValveHandbook handbook, Part valve)
    {
        var socket = book.Mounts.Named(valve.Name) ?? book.Mounts.Named(valve.Group);
        var type = handbook.Find(valve.Marked);
        if (socket is null) return new(valve, type, null, []);
        var lugs = book.Lugs.Where(l => string.Equals(l.Mount, socket.Name, StringComparison.OrdinalIgnoreCase));
        return new(valve, type, socket, [.. lugs.Select(l => Pin(valve, type, l)).OfType<ValvePin>()]);
    }

    private static ValvePin? Pin(Part valve, ValveType? type, Lug lug)
    {
        var cap = IsCap(lug);
        int? number = cap ? null : lug.No;
        ImmutableArray<Electrode> electrodes = [];
        if (type is not null && (cap || number is not null))
        {
            var pin = cap ? "cap" : number!.Value.ToString(CultureInfo.InvariantCulture);
            // A pin that the handbook does not list is absent or free; a cap that it does not list is left to the words.
            electrodes = type.Pinout.TryGetValue(pin, out var letters)
                ? [.. letters.Select(l => Electrodes.Of(l, type.Class)).OfType<Electrode>()]
                : cap ? [] : [new(ElectrodeKind.NoConnection, "", "nc")];
        }
        if (electrodes.IsEmpty) electrodes = Electrodes.FromWords(lug.Function);
        return electrodes.IsEmpty ? null : new(valve, lug.Name, number, string.Join(',', electrodes.Select(e => e.Letters))) { Electrodes = electrodes };
    }
}
