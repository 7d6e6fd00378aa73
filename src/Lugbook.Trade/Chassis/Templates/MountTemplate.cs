using System.Collections.Immutable;

namespace Lugbook.Trade.Chassis.Templates;

/// <summary>One lug of a template: number, what it is for, and its place from the template's middle.</summary>
/// <param name="No">Number on the mount; a socket's pin.</param>
/// <param name="Function">What the maker made it for; null when nothing in particular.</param>
/// <param name="X">To the right, mm, seen from beneath, before turning.</param>
/// <param name="Y">To the rear, mm.</param>
public readonly record struct TemplateLug(int No, string? Function, double X, double Y);

/// <summary>A mount as it comes from the drawer: its kind and its lugs about its own middle.</summary>
/// <param name="KindAsWritten">The kind as the book writes it: "octal socket".</param>
/// <param name="Lugs">The lugs in order of number.</param>
/// <param name="Source">Where the dimensions come from.</param>
public sealed record MountTemplate(string KindAsWritten, ImmutableArray<TemplateLug> Lugs, string Source)
{
    /// <summary>True when the lug carries the mount's own name and no number: the chassis, an earth lug.</summary>
    public bool LugIsMount { get; init; }

    /// <summary>The template as a mount of the book with its lugs.</summary>
    /// <param name="name">Name of the mount: "V3"; its lugs are V3-1, V3-2, …</param>
    /// <param name="x">Middle of the mount, mm to the right, seen from beneath; null when not measured.</param>
    /// <param name="y">Middle of the mount, mm to the rear; null when not measured.</param>
    /// <param name="rotationDegrees">Turn clockwise as seen from beneath: 0 is a socket's key to the rear, a strip's first lug to the left.</param>
    /// <returns>The mount and its lugs; without a place the lugs have none.</returns>
    public (Mount Mount, ImmutableArray<Lug> Lugs) Place(string name, double? x = null, double? y = null, double rotationDegrees = 0)
    {
        var angle = rotationDegrees * Math.PI / 180;
        var (sin, cos) = (Math.Sin(angle), Math.Cos(angle));
        var lugs = Lugs.Select(l => new Lug
        {
            Name = LugIsMount ? name : FormattableString.Invariant($"{name}-{l.No}"),
            Mount = name,
            No = l.No,
            Function = l.Function,
            X = x is { } cx && y is not null ? Round(cx + (l.X * cos) + (l.Y * sin)) : null,
            Y = y is { } cy && x is not null ? Round(cy - (l.X * sin) + (l.Y * cos)) : null,
        });
        return (new() { Name = name, KindAsWritten = KindAsWritten }, [.. lugs]);
    }

    // A tenth of a millimetre is finer than anyone measures a tag.
    private static double Round(double millimetres) => Math.Round(millimetres, 1, MidpointRounding.AwayFromZero) + 0.0;
}
