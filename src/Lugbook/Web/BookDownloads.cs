using System.IO.Compression;
using Lugbook.Drawing;
using Lugbook.Restoration.Order;
using Lugbook.Store.Archive;
using Lugbook.Store.Exchange;
using Lugbook.Store.Shelves;

namespace Lugbook.Web;

/// <summary>What a book can be saved as from the browser.</summary>
internal static class BookDownloads
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/book/{name}/file.lugbook", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, stop, async view =>
            Results.File(await BookFiles.ArchiveBytesAsync(view.Book, stop), "application/zip", $"{view.Book.Name}.lugbook")));
        app.MapGet("/book/{name}/file.xlsx", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, stop, async view =>
            Results.File(await BookFiles.XlsxBytesAsync(view.Book, stop), "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", $"{view.Book.Name}.xlsx")));
        app.MapGet("/book/{name}/file.zip", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, stop, view =>
            Task.FromResult(Results.File(Zip(view), "application/zip", $"{view.Book.Name}-csv.zip"))));
        app.MapGet("/book/{name}/chassis.svg", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, stop, view =>
            Task.FromResult(Results.Text(SvgWriter.Write(ChassisDrawing.Draw(view.Book, view.Map, DrawingOptions.Default)), "image/svg+xml"))));
        app.MapGet("/book/{name}/order.csv", (string name, OpenBooks books, CancellationToken stop) => Book(name, books, stop, view =>
            Task.FromResult(Results.Text(OrderText.Csv(view.Order), "text/csv"))));
    }

    private static async Task<IResult> Book(string name, OpenBooks books, CancellationToken stop, Func<BookView, Task<IResult>> answer)
    {
        try { return await answer(await books.OpenAsync(name, stop)); }
        catch (BookNotFoundException missing) { return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound); }
    }

    private static byte[] Zip(BookView view)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create))
        {
            foreach (var (file, text) in BookFiles.Csv(view.Book))
            {
                using var writer = new StreamWriter(zip.CreateEntry(file).Open());
                writer.Write(text);
            }
        }
        return bytes.ToArray();
    }
}
