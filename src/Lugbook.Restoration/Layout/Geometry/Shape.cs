using System.Collections.Immutable;

namespace Lugbook.Restoration.Layout.Geometry;

/// <summary>Something that is drawn; sheet millimetres, y down, or, before the view is chosen, chassis millimetres.</summary>
/// <param name="Class">Words for the style sheet.</param>
/// <param name="Paint">A real-world colour (a band, an insulation) as #rrggbb; null when the style sheet decides.</param>
public abstract record Shape(string Class, string? Paint);

/// <summary>A line or an area.</summary>
/// <param name="Outline">Its course.</param>
/// <param name="Class">Words for the style sheet.</param>
/// <param name="Paint">Colour: of the line when <paramref name="IsLine"/>, else of the area.</param>
/// <param name="IsLine">A line, not an area.</param>
/// <param name="Lead">For the lead of a part: its letter. The line ends at the lug.</param>
public sealed record OutlineShape(Outline Outline, string Class, string? Paint = null, bool IsLine = false, char? Lead = null) : Shape(Class, Paint);

/// <summary>A disc.</summary>
public sealed record DiscShape(Pt Centre, double Radius, string Class, string? Paint = null) : Shape(Class, Paint);

/// <summary>A line of text, centred on a point.</summary>
/// <param name="At">Middle of the text.</param>
/// <param name="Text">What it says.</param>
/// <param name="Size">Height of the type, mm.</param>
/// <param name="Direction">Direction of reading, length 1; the view turns it so that it is never upside down.</param>
/// <param name="Class">Words for the style sheet.</param>
public sealed record TextShape(Pt At, string Text, double Size, Pt Direction, string Class) : Shape(Class, null)
{
    /// <summary>How far above the point it stands, as one reads it, mm.</summary>
    public double Above { get; init; }
}

/// <summary>A small sign of lines that stays upright on the sheet whichever way the chassis lies.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Points">Its points from the middle, sheet mm: x right, y down.</param>
/// <param name="Class">Words for the style sheet.</param>
public sealed record SignShape(Pt At, ImmutableArray<Pt> Points, string Class) : Shape(Class, null);
