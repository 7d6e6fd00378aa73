using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Drawing;
using Lugbook.Restoration.Square;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;

namespace Lugbook.Web;

/// <summary>A photograph of a book, squared up as far as its pins allow.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="Pins">All its pins.</param>
/// <param name="Result">What came of squaring it up by those whose place is known.</param>
public sealed record PhotoSquare(Photograph Photograph, ImmutableArray<PhotoPin> Pins, SquareResult Result)
{
    /// <summary>Pure.</summary>
    public static PhotoSquare Of(Book book, Photograph photograph)
    {
        ImmutableArray<PhotoPin> pins = [.. book.PinsOf(photograph.Name)];
        return new(photograph, pins, SquareStage.Run([.. pins.Where(p => !p.OnlyPoints && Place(book, p.Name) is not null).Select(p => Place(book, p.Name) is var (x, y) ? new Pick(p.Name, p.X, p.Y, x, y) : null!)]));
    }

    /// <summary>All that are squared up, in order.</summary>
    public static ImmutableArray<PhotoSquare> All(Book book) => [.. book.Photographs.Select(p => Of(book, p)).Where(s => s.IsSquare)];

    /// <summary>Does it lie on the chassis?</summary>
    public bool IsSquare => Result.ToChassis is not null;

    /// <summary>Where a lug lies, chassis mm; null when that was not entered.</summary>
    public static (double X, double Y)? Place(Book book, string lug) => book.Lugs.Named(lug) is { X: { } x, Y: { } y } && double.IsFinite(x + y) && Math.Abs(x) + Math.Abs(y) < 10_000 ? (x, y) : null;

    /// <summary>The lug nearest to a spot of the photograph, with its distance in mm on the chassis, or in pixels among pins where it is not squared up.</summary>
    public (string Lug, double Distance, bool IsMillimetres)? Nearest(Book book, double x, double y)
    {
        if (Result.ToChassis is { } map)
        {
            var (mx, my) = map.Map(x, y);
            var known = book.Lugs.Where(l => Place(book, l.Name) is not null).ToArray();
            if (known.Length == 0) return null;
            var near = known.MinBy(l => Math.Pow(l.X!.Value - mx, 2) + Math.Pow(l.Y!.Value - my, 2))!;
            return (near.Name, Math.Sqrt(Math.Pow(near.X!.Value - mx, 2) + Math.Pow(near.Y!.Value - my, 2)), true);
        }
        if (Pins.IsEmpty) return null;
        var pin = Pins.MinBy(p => Math.Pow(p.X - x, 2) + Math.Pow(p.Y - y, 2))!;
        return (pin.Name, Math.Sqrt(Math.Pow(pin.X - x, 2) + Math.Pow(pin.Y - y, 2)), false);
    }

    /// <summary>From pixels to the sheet as it is drawn: nine numbers row by row, for the page's script.</summary>
    public string OnSheet(bool mirror, Turn turn)
    {
        // The drawing's own view: mirrored or not, y up to y down, then quarter turns.
        double s = mirror ? -1 : 1;
        var sheet = turn switch
        {
            Turn.Quarter => new Homography(0, 1, 0, s, 0, 0, 0, 0, 1),
            Turn.Half => new Homography(-s, 0, 0, 0, 1, 0, 0, 0, 1),
            Turn.ThreeQuarters => new Homography(0, -1, 0, -s, 0, 0, 0, 0, 1),
            _ => new Homography(s, 0, 0, 0, -1, 0, 0, 0, 1),
        };
        var h = sheet.After(Result.ToChassis!);
        return string.Join(' ', new[] { h.A, h.B, h.C, h.D, h.E, h.F, h.G, h.H, h.I }.Select(n => n.ToString("R", CultureInfo.InvariantCulture)));
    }
}
