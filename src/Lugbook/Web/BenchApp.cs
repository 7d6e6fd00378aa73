using Lugbook.Components;
using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Microsoft.AspNetCore.DataProtection;

namespace Lugbook.Web;

/// <summary>Builds the web app of a bench; whoever calls runs it.</summary>
internal static class BenchApp
{
    /// <summary>Opens the shelf, loads the data and wires the pages.</summary>
    /// <exception cref="ShelfException">The shelf cannot be opened.</exception>
    public static async Task<WebApplication> BuildAsync(BenchOptions options, TimeProvider time, CancellationToken stop)
    {
        var data = await BenchData.LoadAsync(options.DataFolder, stop);
        var shelf = await SqliteShelf.OpenAsync(options.ShelfFile, time, stop);

        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(BenchApp).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.ListenLocalhost(options.Port));
        if (options.Port == 0) builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(System.Net.IPAddress.Loopback, 0));
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.Services.AddDataProtection().PersistKeysToFileSystem(
            new DirectoryInfo(Path.Combine(Path.GetDirectoryName(Path.GetFullPath(options.ShelfFile))!, "keys")));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddSingleton<IShelf>(shelf);
        builder.Services.AddSingleton(data);
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton<OpenBooks>();

        var app = builder.Build();
        app.UseAntiforgery();
        app.MapStaticAssets();
        BookDownloads.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        app.Lifetime.ApplicationStopped.Register(() => shelf.DisposeAsync().AsTask().GetAwaiter().GetResult());
        return app;
    }
}
