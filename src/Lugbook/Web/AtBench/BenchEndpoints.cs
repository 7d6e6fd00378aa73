using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Threading.Channels;
using Lugbook.Drawing;
using Lugbook.Store.Shelves;

namespace Lugbook.Web.AtBench;

/// <summary>The page beside the chassis: it works on while the network is gone, and sends its ticks when it is back.</summary>
internal static class BenchEndpoints
{
    /// <summary>A page of another origin cannot send this header without asking first, and is refused when it asks.</summary>
    public const string OwnHeader = "X-Lugbook";
    private const int MostTicks = 5000;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    public static void Map(WebApplication app)
    {
        app.MapGet("/book/{name}/bench", async (string name, IShelf shelf, IWebHostEnvironment web, CancellationToken stop) =>
        {
            try { await shelf.OpenAsync(name, stop); }
            catch (BookNotFoundException missing) { return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound); }
            return Results.Stream(web.WebRootFileProvider.GetFileInfo("atbench/page.html").CreateReadStream(), "text/html; charset=utf-8");
        });
        app.MapGet("/book/{name}/bench.json", SheetAsync);
        app.MapGet("/book/{name}/bench.svg", async (string name, OpenBooks books, CancellationToken stop) =>
        {
            var view = await books.OpenAsync(name, stop);
            return Results.Text(SvgWriter.Write(ChassisDrawing.Draw(view.Book, view.Map, DrawingOptions.Default with { ShowWork = true })), "image/svg+xml");
        });
        app.MapGet("/book/{name}/bench-check/{position}", CheckAsync);
        app.MapPost("/book/{name}/ticks", TakeAsync).DisableAntiforgery();
        app.MapGet("/book/{name}/changes", (string name, IShelf shelf, SupplyDesk desk, CancellationToken stop) => TypedResults.ServerSentEvents(Changes(name, shelf, desk, stop), "changed"));
    }

    private static async Task<IResult> SheetAsync(string name, OpenBooks books, IShelf shelf, SupplyDesk desk, CancellationToken stop)
    {
        try
        {
            var view = await books.OpenAsync(name, stop);
            // The device asks again while the circuit is being solved; nothing waits for it.
            if (!view.IsWorkedOut) _ = Task.Run(view.WorkOut, CancellationToken.None);
            return Results.Json(BenchSheet.Of(view, await shelf.HistoryAsync(name, stop), await desk.ReadAsync(stop)), Json);
        }
        catch (BookNotFoundException missing)
        {
            return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound);
        }
    }

    /// <summary>What to read right after a position is soldered; the device keeps it for when the network is gone.</summary>
    private static async Task<IResult> CheckAsync(string name, string position, OpenBooks books, CancellationToken stop)
    {
        try
        {
            var view = await books.OpenAsync(name, stop);
            var check = await Task.Run(() => { view.WorkOut(); return view.Check(position); }, stop);
            return check is null ? Results.Problem($"{position} is not on the sheet.", statusCode: StatusCodes.Status404NotFound) : Results.Json(BenchCheck.Of(check, view.Book.Readings), Json);
        }
        catch (BookNotFoundException missing)
        {
            return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound);
        }
    }

    /// <summary>Stores ticks in the order in which they were made. What cannot be stored is answered with its reason and does not hold up the rest.</summary>
    private static async Task<IResult> TakeAsync(string name, HttpRequest request, OpenBooks books, IShelf shelf, SupplyDesk desk, CancellationToken stop)
    {
        if (!request.Headers.ContainsKey(OwnHeader)) return Results.Problem("Ticks come from the bench page only.", statusCode: StatusCodes.Status403Forbidden);
        Tick[]? ticks;
        try { ticks = await request.ReadFromJsonAsync<Tick[]>(Json, stop); }
        catch (JsonException bad) { return Results.Problem($"These ticks cannot be read: {bad.Message}", statusCode: StatusCodes.Status400BadRequest); }
        if (ticks is null || ticks.Length > MostTicks || ticks.Any(t => t?.Position is null)) return Results.Problem($"Send an array of at most {MostTicks} ticks, each with its position.", statusCode: StatusCodes.Status400BadRequest);

        var taken = new List<Guid>(ticks.Length);
        var refused = new List<object>();
        var meanwhile = new List<string>();
        try
        {
            // A part keeps the number under which it was done, so that the sheet stays as it was seen.
            var steps = (await books.OpenAsync(name, stop)).Fit.Steps.DistinctBy(s => s.Position, StringComparer.OrdinalIgnoreCase).ToDictionary(s => s.Position, s => s.Number, StringComparer.OrdinalIgnoreCase);
            foreach (var tick in ticks)
            {
                var before = (await shelf.OpenAsync(name, stop)).Book;
                if (Ticks.Fault(before, tick) is { } fault) { refused.Add(new { tick.Id, why = fault }); continue; }
                string? found = null;
                var opened = false;
                var stored = await shelf.EditOnceAsync(name, tick.Id, Bench.Who, Ticks.Say(tick), book =>
                {
                    (found, opened) = (Ticks.Meanwhile(book, tick), book.Work.Named(tick.Position) is not { Done: true });
                    return Ticks.Apply(book, tick, steps.TryGetValue(tick.Position, out var step) ? step : null);
                }, stop);
                // The drawer before the answer: what it refuses is sent again, and counted once all the same.
                if (tick.Kind == TickKind.Done && await TickDrawer.CountAsync(desk, stored.Book, tick, opened, stop) is { } none) meanwhile.Add(none);
                taken.Add(tick.Id);
                if (found is not null) meanwhile.Add(found);
            }
            return Results.Json(new { taken, refused, meanwhile }, Json);
        }
        catch (BookNotFoundException missing)
        {
            return Results.Problem(missing.Message, statusCode: StatusCodes.Status404NotFound);
        }
        catch (ShelfException trouble)
        {
            // What was stored before the trouble is acknowledged; the rest stays on the device.
            return Results.Json(new { taken, refused, meanwhile, trouble = trouble.Message }, Json, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }

    /// <summary>A word whenever the book or the drawer changes, and a sign of life between.</summary>
    private static async IAsyncEnumerable<string> Changes(string name, IShelf shelf, SupplyDesk desk, [EnumeratorCancellation] CancellationToken stop)
    {
        var news = Channel.CreateBounded<string>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
        void Tell(string changed)
        {
            if (string.Equals(changed, name, StringComparison.OrdinalIgnoreCase)) news.Writer.TryWrite("changed");
        }
        void TellAll() => news.Writer.TryWrite("changed");
        shelf.Changed += Tell;
        desk.Changed += TellAll;
        try
        {
            yield return "here";
            while (!stop.IsCancellationRequested)
            {
                using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
                patience.CancelAfter(TimeSpan.FromSeconds(15));
                string said;
                try { said = await news.Reader.ReadAsync(patience.Token); }
                catch (OperationCanceledException) when (!stop.IsCancellationRequested) { said = "alive"; }
                catch (OperationCanceledException) { yield break; }
                yield return said;
            }
        }
        finally
        {
            shelf.Changed -= Tell;
            desk.Changed -= TellAll;
        }
    }
}
