using System.Collections.Frozen;

namespace Lugbook.Trade.Chassis;

/// <summary>What carries lugs, as far as Lugbook treats kinds differently.</summary>
public enum MountKind
{
    /// <summary>A kind that Lugbook does not know; drawn as an outline round its lugs.</summary>
    Other,
    /// <summary>The chassis metal itself.</summary>
    Chassis,
    /// <summary>Tag strip.</summary>
    TagStrip,
    /// <summary>Strip of screw terminals.</summary>
    ScrewStrip,
    /// <summary>Octal valve socket.</summary>
    OctalSocket,
    /// <summary>Loctal valve socket.</summary>
    LoctalSocket,
    /// <summary>Noval (nine-pin miniature) socket.</summary>
    NovalSocket,
    /// <summary>Seven-pin miniature socket.</summary>
    SevenPinSocket,
    /// <summary>Duodecal (twelve-position) socket of a picture tube.</summary>
    DuodecalSocket,
    /// <summary>American four-pin (UX4) socket.</summary>
    FourPinSocket,
    /// <summary>American five-pin (UY, UX5) socket.</summary>
    FivePinSocket,
    /// <summary>American six-pin (UX6) socket.</summary>
    SixPinSocket,
    /// <summary>American large seven-pin (UX7) socket.</summary>
    LargeSevenPinSocket,
    /// <summary>British four-pin (B4) socket.</summary>
    B4Socket,
    /// <summary>British five-pin (B5) socket: a fifth pin in the middle.</summary>
    B5Socket,
    /// <summary>British seven-pin (B7) socket.</summary>
    B7Socket,
    /// <summary>Mazda octal (MO) socket.</summary>
    MazdaOctalSocket,
    /// <summary>Rimlock (B8A) socket.</summary>
    RimlockSocket,
    /// <summary>Magnoval (B9D) socket.</summary>
    MagnovalSocket,
    /// <summary>Duodecar (B12C, twelve-pin) socket.</summary>
    DuodecarSocket,
    /// <summary>Can of an electrolytic capacitor.</summary>
    Can,
    /// <summary>Can of an IF transformer.</summary>
    IfCan,
    /// <summary>Open coil on a form.</summary>
    CoilForm,
    /// <summary>Variable resistor.</summary>
    Control,
    /// <summary>Switch.</summary>
    Switch,
    /// <summary>Jack.</summary>
    Jack,
    /// <summary>Fuse holder.</summary>
    FuseHolder,
    /// <summary>Lamp holder.</summary>
    LampHolder,
    /// <summary>Line cord with its blades.</summary>
    LineCord,
    /// <summary>Earth lug under a bolt.</summary>
    EarthLug,
    /// <summary>Tuning gang.</summary>
    TuningGang,
    /// <summary>Loudspeaker tags.</summary>
    Speaker,
    /// <summary>Loop aerial panel.</summary>
    LoopPanel,
    /// <summary>Power resistor on its own feet.</summary>
    PowerResistor,
    /// <summary>Selenium stack.</summary>
    SeleniumStack,
    /// <summary>Line output transformer.</summary>
    Flyback,
    /// <summary>Deflection yoke.</summary>
    Yoke,
    /// <summary>Transformer or choke with tags or flying leads.</summary>
    Transformer,
    /// <summary>Sealed unit such as a tuner.</summary>
    SealedUnit,
}

/// <summary>How people write kinds of mount.</summary>
public static class MountKinds
{
    private static readonly FrozenDictionary<string, MountKind> Spellings = new Dictionary<string, MountKind>(StringComparer.OrdinalIgnoreCase)
    {
        ["chassis"] = MountKind.Chassis, ["tag strip"] = MountKind.TagStrip, ["terminal strip"] = MountKind.TagStrip, ["strip"] = MountKind.TagStrip, ["tagstrip"] = MountKind.TagStrip,
        ["screw strip"] = MountKind.ScrewStrip, ["screw terminals"] = MountKind.ScrewStrip, ["terminal board"] = MountKind.ScrewStrip,
        ["octal socket"] = MountKind.OctalSocket, ["octal"] = MountKind.OctalSocket, ["loctal socket"] = MountKind.LoctalSocket, ["loctal"] = MountKind.LoctalSocket,
        ["noval socket"] = MountKind.NovalSocket, ["noval"] = MountKind.NovalSocket, ["9-pin socket"] = MountKind.NovalSocket, ["9-pin miniature socket"] = MountKind.NovalSocket,
        ["7-pin socket"] = MountKind.SevenPinSocket, ["7-pin"] = MountKind.SevenPinSocket, ["7-pin miniature"] = MountKind.SevenPinSocket, ["7-pin miniature socket"] = MountKind.SevenPinSocket, ["seven-pin socket"] = MountKind.SevenPinSocket, ["b7g"] = MountKind.SevenPinSocket,
        ["b9a"] = MountKind.NovalSocket, ["duodecal socket"] = MountKind.DuodecalSocket, ["duodecal"] = MountKind.DuodecalSocket,
        ["can"] = MountKind.Can, ["capacitor can"] = MountKind.Can, ["IF can"] = MountKind.IfCan, ["if transformer"] = MountKind.IfCan, ["coil form"] = MountKind.CoilForm, ["coil"] = MountKind.CoilForm,
        ["control"] = MountKind.Control, ["potentiometer"] = MountKind.Control, ["pot"] = MountKind.Control, ["switch"] = MountKind.Switch, ["jack"] = MountKind.Jack, ["fuse holder"] = MountKind.FuseHolder,
        ["lamp holder"] = MountKind.LampHolder, ["line cord"] = MountKind.LineCord, ["mains lead"] = MountKind.LineCord, ["earth lug"] = MountKind.EarthLug, ["ground lug"] = MountKind.EarthLug,
        ["tuning gang"] = MountKind.TuningGang, ["gang"] = MountKind.TuningGang, ["speaker"] = MountKind.Speaker, ["loudspeaker"] = MountKind.Speaker, ["loop panel"] = MountKind.LoopPanel,
        ["power resistor"] = MountKind.PowerResistor, ["selenium stack"] = MountKind.SeleniumStack, ["flyback"] = MountKind.Flyback, ["line output transformer"] = MountKind.Flyback,
        ["yoke"] = MountKind.Yoke, ["transformer"] = MountKind.Transformer, ["choke"] = MountKind.Transformer, ["sealed tuner"] = MountKind.SealedUnit, ["tuner"] = MountKind.SealedUnit, ["sealed unit"] = MountKind.SealedUnit,
        ["4-pin socket"] = MountKind.FourPinSocket, ["four-pin socket"] = MountKind.FourPinSocket, ["ux4"] = MountKind.FourPinSocket, ["ux socket"] = MountKind.FourPinSocket,
        ["5-pin socket"] = MountKind.FivePinSocket, ["five-pin socket"] = MountKind.FivePinSocket, ["ux5"] = MountKind.FivePinSocket, ["uy socket"] = MountKind.FivePinSocket,
        ["6-pin socket"] = MountKind.SixPinSocket, ["six-pin socket"] = MountKind.SixPinSocket, ["ux6"] = MountKind.SixPinSocket,
        ["large 7-pin socket"] = MountKind.LargeSevenPinSocket, ["small 7-pin socket"] = MountKind.LargeSevenPinSocket, ["ux7"] = MountKind.LargeSevenPinSocket,
        ["b4"] = MountKind.B4Socket, ["b4 socket"] = MountKind.B4Socket, ["british 4-pin socket"] = MountKind.B4Socket, ["b5"] = MountKind.B5Socket, ["b5 socket"] = MountKind.B5Socket, ["british 5-pin socket"] = MountKind.B5Socket,
        ["b7"] = MountKind.B7Socket, ["b7 socket"] = MountKind.B7Socket, ["british 7-pin socket"] = MountKind.B7Socket, ["mazda octal socket"] = MountKind.MazdaOctalSocket, ["mazda octal"] = MountKind.MazdaOctalSocket,
        ["b8a"] = MountKind.RimlockSocket, ["rimlock socket"] = MountKind.RimlockSocket, ["rimlock"] = MountKind.RimlockSocket, ["b8g"] = MountKind.LoctalSocket, ["b8b"] = MountKind.LoctalSocket,
        ["b9d"] = MountKind.MagnovalSocket, ["magnoval socket"] = MountKind.MagnovalSocket, ["b12c"] = MountKind.DuodecarSocket, ["duodecar socket"] = MountKind.DuodecarSocket, ["12-pin socket"] = MountKind.DuodecarSocket,
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The kind that this spelling means; <see cref="MountKind.Other"/> when it is not known.</summary>
    public static MountKind Of(string? written) =>
        written is not null && Spellings.TryGetValue(written.Trim().Replace('_', ' '), out var kind) ? kind : MountKind.Other;

    /// <summary>Does a valve plug into it?</summary>
    public static bool IsSocket(this MountKind kind) => kind is MountKind.OctalSocket or MountKind.LoctalSocket or MountKind.NovalSocket
        or MountKind.SevenPinSocket or MountKind.DuodecalSocket or (>= MountKind.FourPinSocket and <= MountKind.DuodecarSocket);
}
