using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>Pins of a valve socket as seen from below: how many, and at which angle clockwise from the key or the gap.</summary>
/// <param name="Pins">Number of pins.</param>
/// <param name="Positions">Places on the circle, empty ones included.</param>
/// <param name="HasGap">Pin 1 follows a gap; otherwise pins 1 and last stand either side of a key.</param>
/// <param name="LugRadius">Usual radius of the circle on which the lugs stand, mm (common practice, no source).</param>
public sealed record SocketPattern(int Pins, int Positions, bool HasGap, double LugRadius)
{
    /// <summary>Angle of a pin, clockwise from key or gap as seen from below, radians.</summary>
    public double Angle(int pin) => (HasGap ? pin : pin - 0.5) * 2 * Math.PI / Positions;
    /// <summary>Direction of a pin when the key points to the rear.</summary>
    public Pt Direction(int pin) => new(Math.Sin(Angle(pin)), Math.Cos(Angle(pin)));

    /// <summary>The pattern of a socket of this kind; null for what is no socket.</summary>
    public static SocketPattern? Of(MountKind kind) => kind switch
    {
        MountKind.OctalSocket or MountKind.LoctalSocket => new(8, 8, false, 11),
        MountKind.NovalSocket => new(9, 10, true, 9.5),
        MountKind.SevenPinSocket => new(7, 8, true, 8),
        MountKind.DuodecalSocket => new(12, 12, false, 13),
        _ => null,
    };
}

/// <summary>Where the lugs of a mount usually stand: sizes are common practice, no source. Local mm, x right, y to the rear.</summary>
internal static class MountTemplate
{
    public static Pt[] Of(MountKind kind, IReadOnlyList<(int? No, bool Cap)> lugs)
    {
        // A lug without a number, or with one that is taken, gets the next free number.
        var taken = new HashSet<int>();
        var numbers = lugs.Select(l => l.No is { } n and >= 1 and <= 400 && taken.Add(n) ? n : 0).ToArray();
        var next = 1;
        for (var i = 0; i < numbers.Length; i++)
            if (numbers[i] == 0)
            {
                while (!taken.Add(next)) next++;
                numbers[i] = next;
            }
        // A strip of one lug that happens to bear the number 12 is not twelve lugs long.
        var most = numbers.DefaultIfEmpty(0).Max();
        if (most > 4 * lugs.Count + 12)
        {
            var rank = numbers.Order().Select((n, i) => (n, i)).ToDictionary(p => p.n, p => p.i + 1);
            numbers = [.. numbers.Select(n => rank[n])];
            most = numbers.Length;
        }
        return [.. numbers.Select((n, i) => At(kind, n, most, lugs[i].Cap))];
    }

    private static Pt At(MountKind kind, int n, int most, bool cap)
    {
        if (SocketPattern.Of(kind) is { } socket)
            return cap || n > socket.Pins ? new((n - socket.Pins - 1) * 4, 0) : socket.Direction(n) * socket.LugRadius;
        return kind switch
        {
            MountKind.TagStrip => new((n - 1) * 9.5, 0),
            MountKind.ScrewStrip => new((n - 1) * 12, 0),
            MountKind.Control => new((n - 1) * 10, 0),
            MountKind.PowerResistor => new((n - 1) * 50.0 / Math.Max(1, most - 1), 0),
            MountKind.FuseHolder or MountKind.SeleniumStack => new((n - 1) * 18, 0),
            MountKind.IfCan when most <= 4 => n switch { 1 => new(-6, 6), 2 => new(6, 6), 3 => new(6, -6), _ => new(-6, -6) },
            MountKind.Can => Ring(n, most, 9),
            _ when most > 6 => Ring(n, most, Math.Max(10, most * 1.6)),
            _ when most > 3 => new((n - 1) % 2 * 12, -((n - 1) / 2) * 10),
            _ => new((n - 1) * 10, 0),
        };
    }

    private static Pt Ring(int n, int most, double radius)
    {
        var angle = (n - 1) * 2 * Math.PI / Math.Max(2, most);
        return new(radius * Math.Sin(angle), radius * Math.Cos(angle));
    }

    /// <summary>What a mount probably is that only its lugs' names tell of: "V3-6" is a valve's pin.</summary>
    public static MountKind Guess(string mount, IReadOnlyList<int?> numbers, PartKind? part)
    {
        var most = numbers.Max(n => n) ?? numbers.Count;
        if (part == PartKind.Valve || part is null && mount.Length > 1 && mount[0] is 'V' or 'v' && mount.Skip(1).All(char.IsAsciiDigit))
            return most switch { <= 8 => MountKind.OctalSocket, 9 => MountKind.NovalSocket, <= 12 => MountKind.DuodecalSocket, _ => MountKind.Other };
        return part switch
        {
            PartKind.Control => MountKind.Control,
            PartKind.Switch => MountKind.Switch,
            PartKind.Fuse => MountKind.FuseHolder,
            PartKind.Lamp => MountKind.LampHolder,
            PartKind.Speaker => MountKind.Speaker,
            PartKind.Winding => MountKind.CoilForm,
            PartKind.SeleniumRectifier => MountKind.SeleniumStack,
            PartKind.Electrolytic => MountKind.Can,
            PartKind.Resistor => MountKind.PowerResistor,
            _ => numbers.Count > 0 && numbers.All(n => n is not null) ? MountKind.TagStrip : MountKind.Other,
        };
    }

    /// <summary>A kind in words, for a mount that nobody described.</summary>
    public static string Spelling(MountKind kind) => kind switch
    {
        MountKind.TagStrip => "tag strip, supposed", MountKind.OctalSocket => "octal socket, supposed", MountKind.NovalSocket => "noval socket, supposed",
        MountKind.DuodecalSocket => "duodecal socket, supposed", MountKind.Other => "lug", _ => kind.ToString().ToLowerInvariant() + ", supposed",
    };
}
