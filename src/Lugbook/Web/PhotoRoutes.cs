using Lugbook.Store.Photographs;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Photographs;
using Microsoft.AspNetCore.Http.Features;

namespace Lugbook.Web;

/// <summary>Photographs in and out over plain requests: a page's own connection is four times slower for files.</summary>
/// <remarks>
/// A file comes as the request's body, without its name. The header that is asked for cannot be sent by a page of another site without this one's leave, so
/// none can put pictures here. What goes out is a copy of pixels, or the file with all but the picture taken out.
/// </remarks>
internal static class PhotoRoutes
{
    /// <summary>The header that an upload must carry.</summary>
    public const string Header = "X-Lugbook-Photograph";

    /// <summary>Address of a copy.</summary>
    public static string Copy(string book, Photograph photograph, bool large = false) => $"book/{book}/photograph/{photograph.Content}/{(large ? "large" : "small")}.jpg";

    /// <summary>Address of the file in full size, without the camera's notes.</summary>
    public static string File(string book, Photograph photograph) => $"book/{book}/photograph/{photograph.Name}/file";

    public static void Map(WebApplication app)
    {
        app.MapPost("/book/{name}/photographs", TakeAsync).DisableAntiforgery();
        app.MapGet("/book/{name}/photograph/{sum}/{size}.jpg", async (string name, string sum, string size, PhotoDesk desk, HttpContext http, CancellationToken stop) =>
        {
            if (size is not ("small" or "large") || await desk.CopyAsync(name, sum, size == "small" ? PhotoCopy.Small : PhotoCopy.Large, stop) is not { } copy) return Results.NotFound();
            Guard(http);
            http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";   // another picture has another sum
            return Results.Bytes(copy, "image/jpeg");
        });
        app.MapGet("/book/{name}/photograph/{photograph}/file", async (string name, string photograph, IShelf shelf, IPhotographs store, HttpContext http, CancellationToken stop) =>
        {
            try
            {
                var book = (await shelf.OpenAsync(name, stop)).Book;
                if (book.Photographs.Named(photograph) is not { } row || await store.OriginalAsync(name, row.Content, stop) is not { } original) return Results.NotFound();
                var content = new PhotoContent(row.Content, row.MediaType, row.Width, row.Height, original);
                byte[] file;
                var type = row.MediaType;
                try { file = await Task.Run(() => PhotoStripping.Strip(content), stop); }
                catch (InvalidDataException) { (file, type) = (await Task.Run(() => PhotoCopy.Make(original, Math.Max(row.Width, row.Height)), stop), "image/jpeg"); }
                Guard(http);
                return Results.File(file, type, $"{book.Name}-{row.Name}{Path.GetExtension(PhotoContent.FileName("x", type))}");
            }
            catch (BookNotFoundException missing) { return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound); }
        });
    }

    private static async Task<IResult> TakeAsync(string name, string? moment, string? place, PhotoDesk desk, IShelf shelf, HttpContext http, CancellationToken stop)
    {
        if (!http.Request.Headers.ContainsKey(Header)) return Refused("This request does not come from a page of this bench.", "Use the photographs page.", StatusCodes.Status403Forbidden);
        if (PhotoWords.Moment(moment) is not { } when) return Refused($"'{moment}' is no moment of a photograph.", "It is one of as found, before, after.", StatusCodes.Status400BadRequest);
        if (http.Request.ContentLength > PhotoIntake.MostBytes) return Refused($"This file has {http.Request.ContentLength / (1024 * 1024)} MiB; {PhotoIntake.MostBytes / (1024 * 1024)} MiB is the limit.", "Save it smaller: 12 megapixels as JPEG show every lug.", StatusCodes.Status413PayloadTooLarge);
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = PhotoIntake.MostBytes + 1024;
        try
        {
            place = string.IsNullOrWhiteSpace(place) ? null : place.Trim();
            if (place is not null && !IsPlace((await shelf.OpenAsync(name, stop)).Book, place)) return Refused($"This book has no position or mount '{place}'.", "Choose one from the list, or leave it empty.", StatusCodes.Status400BadRequest);
            using var body = new MemoryStream();
            await http.Request.Body.CopyToAsync(body, stop);
            var (row, complaint) = await desk.TakeAsync(name, body.ToArray(), when, place, null, stop);
            return row is null ? Refused(complaint!.Problem, complaint.Remedy, StatusCodes.Status422UnprocessableEntity) : Results.Json(new { row.Name, row.Width, row.Height });
        }
        catch (BookNotFoundException missing) { return Refused(missing.Message, "", StatusCodes.Status404NotFound); }
        catch (ShelfException trouble) { return Refused(trouble.Message, "", StatusCodes.Status500InternalServerError); }
        catch (BadHttpRequestException large) when (large.StatusCode == StatusCodes.Status413PayloadTooLarge) { return Refused("This file is larger than 40 MiB.", "Save it smaller.", StatusCodes.Status413PayloadTooLarge); }
    }

    /// <summary>Is this the name of a position or a mount?</summary>
    internal static bool IsPlace(Book book, string place) => book.Parts.Named(place) is not null || book.Mounts.Named(place) is not null;

    private static IResult Refused(string problem, string remedy, int status) => Results.Json(new { Problem = problem, Remedy = remedy }, statusCode: status);

    // What came as a picture is never taken for a page.
    private static void Guard(HttpContext http)
    {
        http.Response.Headers.XContentTypeOptions = "nosniff";
        http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; sandbox";
    }
}
