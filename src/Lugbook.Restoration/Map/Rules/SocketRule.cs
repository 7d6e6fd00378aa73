using Lugbook.Trade.Chassis;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Valve against socket: missing, unknown, not fitting, named otherwise by the socket's words, or with a dead pin in use.</summary>
internal static class SocketRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c) =>
        Missing(c).Concat(c.Chart.Valves.SelectMany(v => Valve(c, v)));

    private static IEnumerable<Contradiction> Missing(RuleContext c)
    {
        foreach (var mount in c.Book.Mounts.Where(m => m.Kind.IsSocket()))
        {
            if (c.Chart.Valves.Any(v => v.Socket?.Id == mount.Id)) continue;
            var lugs = c.Book.Lugs.Where(l => RuleContext.Same(l.Mount, mount.Name)).ToArray();
            if (!lugs.Any(l => c.IsSoldered(l.Name))) continue;
            var forValve = lugs.Any(l => Electrodes.FromWords(l.Function).Any(e => e.Kind is not (ElectrodeKind.NoConnection or ElectrodeKind.Other)));
            yield return new("valve-missing", forValve ? Weight.Contradiction : Weight.Doubt, mount.Name,
                $"Leads are soldered to the socket {mount.Name}, but no valve {mount.Name} is in the book.",
                forValve ? "Enter the valve with its type." : "Enter the valve with its type; if the socket serves as a plug, give the mount another kind.");
        }
    }

    private static IEnumerable<Contradiction> Valve(RuleContext c, PluggedValve valve)
    {
        var name = valve.Part.Name;
        if (string.IsNullOrWhiteSpace(valve.Part.Marked))
            yield return new("valve-type-missing", Weight.Remark, name, $"The type of {name} is not entered: its pins are taken from the words on the socket, if there are any.", "Enter the type from the bulb, the sheet or the tube chart.");
        else if (valve.Type is null)
            yield return new("valve-type-unknown", Weight.Remark, name, $"{name} is a {valve.Part.Marked}, which the handbook does not have: its pins are taken from the words on the socket, if there are any.", "Look for a slip in the type; otherwise write each pin's electrode beside the socket's lugs.");
        if (valve.Socket is not { } socket)
        {
            if (c.Book.Mounts.Any(m => m.Kind.IsSocket()))
                yield return new("valve-without-socket", Weight.Doubt, name, $"There is no socket {name} for the valve {name}.", $"Add a socket of the name {name}, or correct the valve's reference.");
            yield break;
        }
        if (valve.Type is { } type && SocketOf(type.Base) is { } wanted && socket.Kind.IsSocket() && socket.Kind != wanted)
            yield return new("valve-does-not-fit", Weight.Contradiction, name,
                $"{name} is a {valve.Part.Marked} with {Article(type.Base)} {type.Base} base, but {socket.Name} is {Article(socket.KindAsWritten)} {socket.KindAsWritten}.", "Correct the valve's type or the socket's kind.");
        foreach (var found in WordsAgainstHandbook(c, valve)) yield return found;
        foreach (var found in DeadPins(c, valve)) yield return found;
    }

    private static IEnumerable<Contradiction> WordsAgainstHandbook(RuleContext c, PluggedValve valve)
    {
        if (valve.Type is null) yield break;
        var disagree = valve.Pins.Select(p => (Pin: p, Words: Electrodes.FromWords(c.Book.Lugs.Named(p.Lug)?.Function)))
            .Where(d => !d.Words.IsEmpty && !Agree(d.Pin.Electrodes, d.Words)).ToArray();
        if (disagree.Length == 0) yield break;
        if (disagree.Length > 2)
        {
            yield return new("socket-says-otherwise", Weight.Contradiction, valve.Part.Name,
                $"{disagree.Length} pins of {valve.Part.Name} do not agree: the socket's words are not those of a {valve.Type.Type} (at {string.Join(", ", disagree.Select(d => d.Pin.Lug).Take(5))}).",
                "Look at the type in the socket: a valve of another basing may have been entered or fitted.");
            yield break;
        }
        foreach (var (pin, words) in disagree)
            yield return new("socket-says-otherwise", Weight.Contradiction, pin.Lug,
                $"The socket's note at {pin.Lug} says {InWords(words)}, the handbook says {InWords(pin.Electrodes)} for pin {pin.Pin?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "cap"} of a {valve.Type.Type}.",
                "Correct the note, or the valve's type.");
    }

    private static bool Agree(IEnumerable<Electrode> handbook, IEnumerable<Electrode> words) =>
        handbook.Any(h => words.Any(w => Group(h.Kind) == Group(w.Kind))) || words.All(w => w.Kind == ElectrodeKind.Other)
        // Converters and picture tubes number their grids by place; the words rarely say what each does.
        || handbook.Any(h => words.Any(w => h.Letters == w.Letters));

    /// <summary>Kinds that words mix up without meaning harm.</summary>
    private static int Group(ElectrodeKind kind) => kind switch
    {
        ElectrodeKind.Heater or ElectrodeKind.HeaterTap or ElectrodeKind.Filament => 1,
        ElectrodeKind.NoConnection or ElectrodeKind.Internal or ElectrodeKind.Shell or ElectrodeKind.Shield or ElectrodeKind.Jumper => 2,
        ElectrodeKind.Cathode or ElectrodeKind.BeamPlates => 3,
        ElectrodeKind.Plate or ElectrodeKind.DiodePlate => 4,
        _ => 10 + (int)kind,
    };

    private static IEnumerable<Contradiction> DeadPins(RuleContext c, PluggedValve valve)
    {
        foreach (var pin in valve.Pins.Where(p => c.IsSoldered(p.Lug)))
        {
            if (pin.Electrodes.All(e => e.Kind == ElectrodeKind.NoConnection))
                yield return new("dead-pin-as-tie", Weight.Remark, pin.Lug, $"{pin.Lug} has no connection inside {valve.Part.Name} and is used as a tie point.", "Nothing to do; remember it when another type or make is plugged in: its pin may be connected inside.");
            else if (pin.Electrodes.All(e => e.Kind == ElectrodeKind.Internal))
                yield return new("internal-pin-as-tie", Weight.Doubt, pin.Lug, $"{pin.Lug} is connected to something inside {valve.Part.Name} that the handbook forbids to use, but leads are soldered to it.", "Look on which lug they really are.");
        }
        foreach (var lug in c.Book.Lugs.Where(l => RuleContext.Same(l.Mount, valve.Socket!.Name) && !ValvePins.IsCap(l) && l.No > Pins(valve.Socket!.Kind)))
            yield return new("pin-out-of-range", Weight.Doubt, lug.Name, $"{lug.Name} is pin {lug.No}, but {Article(valve.Socket!.KindAsWritten)} {valve.Socket.KindAsWritten} has {Pins(valve.Socket.Kind)}.", "Correct the pin number; a top cap's lug ends in -cap.");
    }

    private static int Pins(MountKind kind) => PinCircles.Of(kind)?.Pins.Length ?? int.MaxValue;

    private static MountKind? SocketOf(string valveBase) => valveBase switch
    {
        "octal" => MountKind.OctalSocket,
        "loctal" => MountKind.LoctalSocket,
        "noval" => MountKind.NovalSocket,
        "7-pin miniature" => MountKind.SevenPinSocket,
        "duodecal" => MountKind.DuodecalSocket,
        "4-pin" => MountKind.FourPinSocket,
        "5-pin" => MountKind.FivePinSocket,
        "6-pin" => MountKind.SixPinSocket,
        _ => null,
    };

    private static string InWords(IEnumerable<Electrode> electrodes) => string.Join(" and ", electrodes.Select(e => e.InWords).Distinct());
    private static string Article(string word) => word.Length > 0 && "aeiou8".Contains(char.ToLowerInvariant(word[0]), StringComparison.Ordinal) ? "an" : "a";
}
