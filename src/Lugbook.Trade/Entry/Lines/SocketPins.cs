using System.Globalization;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Which pin of a socket is the plate, from the type of the valve that plugs into it.</summary>
internal static class SocketPins
{
    /// <summary>The pins whose electrode has one of these names; none when the valve or its type is not known.</summary>
    public static IEnumerable<int> Of(Mount socket, Book book, ValveHandbook handbook, string[] names)
    {
        if (!socket.Kind.IsSocket() || book.Parts.Named(socket.Name)?.Marked is not { } marked || handbook.Find(marked) is not { } type) return [];
        return type.Pinout
            .Where(pin => pin.Value.Any(letters => Electrodes.Of(letters, type.Class) is { } e && names.Contains(Words(e.Kind))))
            .Select(pin => int.TryParse(pin.Key, NumberStyles.None, CultureInfo.InvariantCulture, out var no) ? no : 0)
            .Where(no => no > 0);
    }

    private static string Words(ElectrodeKind kind) => kind switch
    {
        ElectrodeKind.Plate => "plate",
        ElectrodeKind.ControlGrid => "grid 1",
        ElectrodeKind.Screen => "screen",
        ElectrodeKind.Suppressor => "suppressor",
        ElectrodeKind.Cathode => "cathode",
        ElectrodeKind.Heater => "heater",
        ElectrodeKind.Filament => "filament",
        _ => "",
    };
}
