using System.Collections.Immutable;
using System.Globalization;

namespace Lugbook.Trade.Chassis.Templates;

/// <summary>Mounts as they come from the drawer, so that their lugs need not be typed.</summary>
/// <remarks>Dimensions without a named source are common practice, no source; each template says so in its <see cref="MountTemplate.Source"/>.</remarks>
public static class MountTemplates
{
    /// <summary>Distance from lug to lug of a tag strip, mm: 3/8 in. Common practice, no source.</summary>
    public const double StripPitchMillimetres = 9.5;

    private const string Practice = "common practice, no source";

    /// <summary>A tag strip in a row.</summary>
    /// <param name="lugs">1 to 10.</param>
    /// <param name="feet">Numbers of the lugs that are mounting feet; others are insulated.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static MountTemplate TagStrip(int lugs, params ReadOnlySpan<int> feet)
    {
        InRange(lugs, 1, 10, nameof(lugs));
        var standing = feet.ToArray();
        foreach (var foot in standing) InRange(foot, 1, lugs, nameof(feet));
        return new("tag strip", Row(lugs, StripPitchMillimetres, n => standing.Contains(n) ? "mounting foot" : null), $"pitch 3/8 in: {Practice}");
    }

    /// <summary>Octal socket.</summary>
    public static MountTemplate Octal { get; } = Round("octal socket", PinCircles.Octal);
    /// <summary>Loctal socket.</summary>
    public static MountTemplate Loctal { get; } = Round("loctal socket", PinCircles.Loctal);
    /// <summary>Noval socket.</summary>
    public static MountTemplate Noval { get; } = Round("noval socket", PinCircles.Noval);
    /// <summary>Seven-pin miniature socket.</summary>
    public static MountTemplate SevenPin { get; } = Round("7-pin socket", PinCircles.SevenPin);
    /// <summary>Duodecal socket.</summary>
    public static MountTemplate Duodecal { get; } = Round("duodecal socket", PinCircles.Duodecal);

    /// <summary>Every kind of socket, commonest first.</summary>
    public static ImmutableArray<MountTemplate> Sockets { get; } =
    [
        Octal, Noval, SevenPin, Loctal, Duodecal, Round("4-pin socket", PinCircles.FourPin), Round("5-pin socket", PinCircles.FivePin), Round("6-pin socket", PinCircles.SixPin), Round("large 7-pin socket", PinCircles.LargeSevenPin),
        Round("B4 socket", PinCircles.B4), Round("B5 socket", PinCircles.B5), Round("B7 socket", PinCircles.B7), Round("Mazda octal socket", PinCircles.MazdaOctal), Round("rimlock socket", PinCircles.Rimlock),
        Round("magnoval socket", PinCircles.Magnoval), Round("duodecar socket", PinCircles.Duodecar),
    ];

    /// <summary>Can of an electrolytic: the sections' tags on the base, and the can's own tab as the last lug.</summary>
    /// <param name="sections">1 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static MountTemplate Can(int sections)
    {
        InRange(sections, 1, 4, nameof(sections));
        // Tags on a circle of 12 mm, the twist tab on the rim of a 1 in can.
        var tags = Enumerable.Range(1, sections).Select(n => OnCircle(n, sections == 1 ? "section +" : $"section {n.ToString(CultureInfo.InvariantCulture)} +", 6, (n - 1) * 360.0 / sections));
        return new("can", [.. tags, OnCircle(sections + 1, "common -, can tab", 12.7, 180 + (sections == 2 ? 90 : sections == 4 ? 45 : 0))], Practice);
    }

    /// <summary>Control seen from behind its tags: anticlockwise end, wiper, clockwise end.</summary>
    public static MountTemplate Control { get; } = new("control",
        Row(3, 9.5, n => n switch { 1 => "anticlockwise end", 2 => "wiper", _ => "clockwise end" }), Practice);

    /// <summary>Switch with its tags in a row.</summary>
    /// <param name="lugs">2 to 12.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static MountTemplate Switch(int lugs = 2)
    {
        InRange(lugs, 2, 12, nameof(lugs));
        return new("switch", Row(lugs, 10, _ => "switch tag"), Practice);
    }

    /// <summary>Jack: tip and sleeve, and a third lug when it has a break contact.</summary>
    /// <param name="lugs">2 or 3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static MountTemplate Jack(int lugs = 2)
    {
        InRange(lugs, 2, 3, nameof(lugs));
        return new("jack", Row(lugs, 8, n => n switch { 1 => "tip", 2 => "sleeve", _ => "break contact" }), Practice);
    }

    /// <summary>Fuse holder: end tag and side tag.</summary>
    public static MountTemplate FuseHolder { get; } = new("fuse holder", Row(2, 18, n => n == 1 ? "end tag" : "side tag"), Practice);
    /// <summary>Lamp holder: centre and shell.</summary>
    public static MountTemplate LampHolder { get; } = new("lamp holder", Row(2, 8, n => n == 1 ? "centre" : "shell"), Practice);
    /// <summary>Line cord of two conductors where it enters the chassis.</summary>
    public static MountTemplate LineCord { get; } = new("line cord", Row(2, 6, _ => "blade"), Practice);
    /// <summary>Speaker with its two voice coil tags.</summary>
    public static MountTemplate Speaker { get; } = new("speaker", Row(2, 10, _ => "voice coil"), Practice);
    /// <summary>Earth lug under a bolt; its lug has the mount's own name.</summary>
    public static MountTemplate EarthLug { get; } = new("earth lug", [new(1, "chassis", 0, 0)], "a point") { LugIsMount = true };
    /// <summary>The chassis metal; its lug has the mount's own name.</summary>
    public static MountTemplate ChassisMetal { get; } = new("chassis", [new(1, "chassis metal", 0, 0)], "a point") { LugIsMount = true };

    /// <summary>IF can with four lugs in a square, as American prints colour them.</summary>
    public static MountTemplate IfCan { get; } = new("IF can",
        [new(1, "plate (blue)", -6, 6), new(2, "B+ (red)", 6, 6), new(3, "grid or diode (green)", 6, -6), new(4, "return (black)", -6, -6)],
        $"colours: RMA leads, from memory; square of 12 mm: {Practice}");

    /// <summary>Transformer or choke with tags or flying leads in a row.</summary>
    /// <param name="leads">2 to 24.</param>
    /// <param name="kind">"transformer" or "choke".</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static MountTemplate Transformer(int leads, string kind = "transformer")
    {
        InRange(leads, 2, 24, nameof(leads));
        return new(kind, Row(leads, 8, _ => null), Practice);
    }

    /// <summary>The socket that a word names ("octal", "noval", "9-pin", "B7G"); null when it names none.</summary>
    public static MountTemplate? Socket(string word) => word.Trim().ToLowerInvariant().Replace(" socket", "", StringComparison.Ordinal).Replace('-', ' ') switch
    {
        "octal" or "8 pin" or "8pin" or "k8a" or "io" => Octal,
        "loctal" or "loktal" or "lock in" or "b8b" => Loctal,
        "noval" or "9 pin" or "9pin" or "nine pin" or "b9a" or "9 pin miniature" => Noval,
        "7 pin" or "7pin" or "seven pin" or "b7g" or "7 pin miniature" or "miniature" => SevenPin,
        "duodecal" or "12 pin" => Duodecal,
        var other => OfKind(MountKinds.Of(word)) ?? OfKind(MountKinds.Of(other.Replace(" pin", "-pin", StringComparison.Ordinal) + " socket")),
    };

    private static MountTemplate? OfKind(MountKind kind) => kind.IsSocket() ? Sockets.FirstOrDefault(s => MountKinds.Of(s.KindAsWritten) == kind) : null;

    /// <summary>The kind that a mount of this name most likely is, when a note names it before it is entered.</summary>
    /// <remarks>Common practice, no source. A valve's socket stays open: octal, noval or seven-pin is for the user to say.</remarks>
    public static string LikelyKind(string name)
    {
        var letters = name.TakeWhile(char.IsLetter).Count();
        var hasNumber = letters < name.Length;
        return name[..letters].ToUpperInvariant() switch
        {
            "CH" => "chassis",
            "V" when hasNumber => "valve socket",
            "K" when hasNumber => "can",
            "R" or "VR" or "P" when hasNumber && name[0] is not 'P' => "control",
            "P" when hasNumber => "line cord",
            "T" or "L" or "TR" when hasNumber => "transformer",
            "S" or "SW" when hasNumber => "switch",
            "F" when hasNumber => "fuse holder",
            "J" when hasNumber => "jack",
            "E" when hasNumber => "earth lug",
            "LM" or "PL" => "lamp holder",
            "SP" or "LS" => "speaker",
            "SE" or "SR" => "selenium stack",
            _ => "tag strip",
        };
    }

    private static MountTemplate Round(string kind, PinCircle circle) =>
        new(kind, [.. circle.Pins.Select(p => { var (x, y) = circle.TagOf(p); return new TemplateLug(p, null, x, y); })],
            $"pins: {circle.Source}; tags {PinCircle.TagReachMillimetres.ToString(CultureInfo.InvariantCulture)} mm outside them: {Practice}");

    private static ImmutableArray<TemplateLug> Row(int count, double pitch, Func<int, string?> function) =>
        [.. Enumerable.Range(1, count).Select(n => new TemplateLug(n, function(n), (n - 1 - ((count - 1) / 2.0)) * pitch, 0))];

    private static TemplateLug OnCircle(int no, string function, double radius, double degrees) =>
        new(no, function, radius * Math.Sin(degrees * Math.PI / 180), radius * Math.Cos(degrees * Math.PI / 180));

    private static void InRange(int value, int least, int most, string name)
    {
        if (value < least || value > most)
            throw new ArgumentOutOfRangeException(name, value, $"From {least.ToString(CultureInfo.InvariantCulture)} to {most.ToString(CultureInfo.InvariantCulture)}.");
    }
}
