using Lugbook.Trade.Photographs;

namespace Lugbook.Store.Exchange;

/// <summary>Reads the tables of photographs from text. Pure.</summary>
internal static class PhotographsText
{
    public static IEnumerable<Photograph> Rows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            var exact = table.Context.Exact;
            var name = exact ? row.Raw("photograph") : row.Words("photograph");
            var content = exact ? row.Raw("content") : row.Words("content")?.ToLowerInvariant();
            if (name is null || content is null || !exact && !IsSum(content))
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), name is null ? "this photograph has no name." : "this photograph's content is not a SHA-256 sum.",
                    "Let Lugbook write this table: 'lugbook photo BOOK add FILE' keeps the file and its row.");
                continue;
            }
            if (PhotoWords.Moment(row.Words("moment") ?? "") is not { } moment)
            {
                row.Complain("moment", 0, "this is no moment of a photograph.", "Write as found, before or after.");
                continue;
            }
            yield return new()
            {
                Id = row.Id(), Name = name, Content = content, MediaType = (exact ? row.Raw("media_type") : row.Words("media_type")) ?? "", Width = row.Whole("width_px") ?? 0, Height = row.Whole("height_px") ?? 0,
                Moment = moment, Place = row.Words("place"), Caption = row.Words("caption"), Extras = row.Extras(),
            };
        }
    }

    public static IEnumerable<PhotoPin> PinRows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            var exact = table.Context.Exact;
            if ((exact ? row.Raw("photograph") : row.Words("photograph")) is not { } photograph || (exact ? row.Raw("lug") : row.LugName("lug")) is not { } lug)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this pin names no photograph or no lug.", "Write the photograph's name and the lug's.");
                continue;
            }
            yield return new()
            {
                Id = row.Id(), Name = lug, Photograph = photograph, X = row.Number("x_px", -1e6, 1e6) ?? 0, Y = row.Number("y_px", -1e6, 1e6) ?? 0,
                OnlyPoints = row.Words("only_points") is { } words && words.ToLowerInvariant() is "yes" or "true" or "x" or "1", Extras = row.Extras(),
            };
        }
    }

    private static bool IsSum(string text) => text.Length == 64 && text.All(char.IsAsciiHexDigitLower);
}
