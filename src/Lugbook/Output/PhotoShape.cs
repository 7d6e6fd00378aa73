using System.Collections.Immutable;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;
using Lugbook.Web;

namespace Lugbook.Output;

/// <summary>A photograph as --json shows it; described in docs/json.md.</summary>
internal sealed record PhotoShape(string Name, string Moment, string? Place, string? Caption, int Width, int Height, string MediaType, string Content,
    ImmutableArray<PhotoPinShape> Pins, bool Squared, string? Refusal, double? WorstMillimetres, IReadOnlyList<string> Remarks, IReadOnlyList<double>? ToChassis)
{
    public static PhotoShape Of(Book book, Photograph row)
    {
        var square = PhotoSquare.Of(book, row);
        var h = square.Result.ToChassis;
        return new(row.Name, PhotoWords.Of(row.Moment), row.Place, row.Caption, row.Width, row.Height, row.MediaType, row.Content,
            [.. square.Pins.Select(p => new PhotoPinShape(p.Name, p.X, p.Y, !p.OnlyPoints, square.Result.Errors.FirstOrDefault(e => e.Lug == p.Name)?.Millimetres))],
            square.IsSquare, square.Result.Refusal, square.IsSquare ? square.Result.WorstMillimetres : null, square.Result.Remarks, h is null ? null : [h.A, h.B, h.C, h.D, h.E, h.F, h.G, h.H, h.I]);
    }
}

/// <summary>A pin as --json shows it.</summary>
internal sealed record PhotoPinShape(string Lug, double X, double Y, bool Squares, double? ErrorMillimetres);
