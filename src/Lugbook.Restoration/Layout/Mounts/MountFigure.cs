using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Layout.Mounts;

/// <summary>A mount as it is drawn.</summary>
/// <param name="Mount">The mount.</param>
/// <param name="Shapes">What is drawn, chassis mm.</param>
/// <param name="Centre">Its middle: lug numbers stand on the side away from it.</param>
/// <param name="Extent">What it covers.</param>
/// <param name="Face">Room in its middle for a valve's type or a name: width and height, mm; zero when there is none.</param>
public sealed record MountFigure(PlacedMount Mount, ImmutableArray<Shape> Shapes, Pt Centre, Box Extent, (double Width, double Height) Face)
{
    /// <summary>A strip or a hull, where numbers stand to the sides and not outwards from the centre.</summary>
    public Pt? AlongAxis { get; init; }
}

/// <summary>Draws a mount in its real shape, fitted to where its lugs are.</summary>
internal static class MountFigures
{
    public static MountFigure Of(PlacedMount mount, in MountSurroundings around)
    {
        var points = mount.Lugs.Select(l => l.At).ToArray();
        if (SocketPattern.Of(mount.Kind) is { } socket) return SocketFigure.Of(mount, socket);
        if (points.Length == 0) return BoxFigures.Plain(mount, [mount.Anchor]);
        return mount.Kind switch
        {
            MountKind.Chassis => BoxFigures.ChassisMetal(mount),
            MountKind.TagStrip or MountKind.ScrewStrip => StripFigure.Of(mount),
            MountKind.Can => CanFigure.Of(mount, around.Symbols),
            MountKind.Control => ControlFigure.Of(mount, around.Edges),
            MountKind.IfCan => BoxFigures.IfCan(mount),
            MountKind.FuseHolder or MountKind.PowerResistor => BoxFigures.Tube(mount),
            MountKind.SeleniumStack => BoxFigures.Fins(mount),
            MountKind.LampHolder => BoxFigures.LampHolder(mount),
            MountKind.EarthLug => BoxFigures.EarthLug(mount),
            MountKind.LineCord => BoxFigures.LineCord(mount),
            MountKind.Jack => BoxFigures.Jack(mount),
            MountKind.CoilForm => BoxFigures.CoilForm(mount),
            MountKind.Speaker => BoxFigures.Speaker(mount),
            MountKind.TuningGang => BoxFigures.Gang(mount),
            MountKind.LoopPanel => BoxFigures.Loop(mount),
            MountKind.Transformer or MountKind.Flyback or MountKind.Yoke => BoxFigures.Iron(mount),
            MountKind.Switch => BoxFigures.Switch(mount),
            MountKind.SealedUnit => BoxFigures.Sealed(mount),
            _ => BoxFigures.Plain(mount, points),
        };
    }
}

/// <summary>What a mount's figure takes from around it.</summary>
/// <param name="Edges">The chassis as far as lugs tell; null when nothing is measured.</param>
/// <param name="Symbols">Section symbols of a can's lugs, by lug name.</param>
public readonly record struct MountSurroundings(Box? Edges, ImmutableDictionary<string, string> Symbols);
