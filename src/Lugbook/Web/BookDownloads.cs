using System.IO.Compression;
using Lugbook.Drawing;
using Lugbook.Drawing.Raster;
using Lugbook.Drawing.Schematic;
using Lugbook.Restoration.Order;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Photographs;
using Lugbook.Store.Shelves;
using Lugbook.Trade.Parts;

namespace Lugbook.Web;

/// <summary>What a book can be saved as from the browser.</summary>
internal static class BookDownloads
{
    internal const string Spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    public static void Map(WebApplication app, TimeProvider time)
    {
        app.MapGet("/book/{name}/file.lugbook", async (string name, string? photographs, OpenBooks books, IPhotographs store, CancellationToken stop) =>
        {
            var form = photographs switch { "originals" => PhotoForm.Original, "small" => PhotoForm.Small, _ => PhotoForm.Stripped };
            try
            {
                var view = await books.OpenAsync(name, stop);
                var originals = await OriginalsAsync(view.Book, store, stop);
                var (bytes, complaints) = await Task.Run(() =>
                {
                    var (book, entries) = PhotoEntries.Of(view.Book, originals, form);
                    return new BookArchive(book, entries).ToBytes(time.GetUtcNow());
                }, stop);
                return complaints.IsEmpty ? Results.File(bytes, "application/zip", $"{view.Book.Name}.lugbook") : Refused(string.Join('\n', complaints));
            }
            catch (BookNotFoundException missing) { return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound); }
        });
        app.MapGet("/book/{name}/file.xlsx", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
        {
            var (bytes, complaint) = BookFiles.ToXlsx(view.Book);
            return complaint is null ? Results.File(bytes, Spreadsheet, $"{view.Book.Name}.xlsx") : Refused(complaint.ToString());
        }, stop));
        app.MapGet("/book/{name}/file.zip", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
            Results.File(Zip(view), "application/zip", $"{view.Book.Name}-csv.zip"), stop));
        app.MapGet("/book/{name}/chassis.svg", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
            Results.Text(PaperSize.Of(SvgWriter.Write(ChassisDrawing.Draw(view.Book, view.Map, DrawingOptions.Default))), "image/svg+xml"), stop));
        app.MapGet("/book/{name}/chassis.png", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
            PictureWriter.Png(SvgWriter.Write(ChassisDrawing.Draw(view.Book, view.Map, DrawingOptions.Default)), 200) is (var png, null) ? Results.File(png, "image/png", $"{view.Book.Name}-chassis.png") : Refused("This chassis is too large for a picture; save the drawing."), stop));
        app.MapGet("/book/{name}/stage/{valve}.svg", (string name, string valve, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
            view.Book.Parts.Named(valve) is { Kind: PartKind.Valve } part && StageDiagram.Draw(view.Map, part, view.IsSolved ? NodeVolts.Of(view.Solved) : _ => null, p => $"#{p}") is { } picture
                ? Results.Text(picture.Svg, "image/svg+xml") : Results.Problem($"No stage of {valve} can be drawn.", statusCode: StatusCodes.Status404NotFound), stop));
        app.MapGet("/book/{name}/order.csv", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, view =>
            Results.Text(OrderStage.Csv(OrderStage.Run(view.WorkOut())), "text/csv"), stop));
    }

    /// <summary>The originals of a book's photographs; what is not there is left out.</summary>
    private static async Task<IReadOnlyList<PhotoContent>> OriginalsAsync(Trade.Book book, IPhotographs store, CancellationToken stop)
    {
        var originals = new List<PhotoContent>();
        foreach (var row in book.Photographs.DistinctBy(p => p.Content))
            if (await store.OriginalAsync(book.Name, row.Content, stop) is { } bytes) originals.Add(new(row.Content, row.MediaType, row.Width, row.Height, bytes));
        return originals;
    }

    private static IResult Refused(string why) => Results.Problem(why, statusCode: StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> Book(string name, OpenBooks books, Func<BookView, IResult> answer, CancellationToken stop)
    {
        try { return answer(await books.OpenAsync(name, stop)); }
        catch (BookNotFoundException missing) { return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound); }
    }

    private static byte[] Zip(BookView view)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create))
        {
            foreach (var file in BookFiles.ToCsv(view.Book))
            {
                using var entry = zip.CreateEntry(file.Name).Open();
                entry.Write(file.Bytes);
            }
        }
        return bytes.ToArray();
    }
}
