using Lugbook.Components;
using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Lugbook.Web.AtBench;
using Microsoft.AspNetCore.DataProtection;

namespace Lugbook.Web;

/// <summary>Builds the web app of a bench; whoever calls runs it.</summary>
internal static class BenchApp
{
    /// <summary>Opens the shelf, loads the data and wires the pages.</summary>
    /// <exception cref="ShelfException">The shelf cannot be opened.</exception>
    public static async Task<WebApplication> BuildAsync(BenchOptions options, TimeProvider time, CancellationToken stop)
    {
        var data = await BenchData.LoadAsync(options.DataFolder, OwnValves.Find(null), stop);
        var folder = Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(options.ShelfFile))!);
        var isNew = !File.Exists(options.ShelfFile);
        var shelf = await SqliteShelf.OpenAsync(options.ShelfFile, time, stop);
        // A new shelf begins with the demo books; whoever removes them later is not given them again.
        if (isNew) await DemoShelf.FillAsync(shelf, data, stop);

        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(BenchApp).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            // Only this machine can connect; "localhost" means both loopback addresses, which a free port of the system's choice cannot.
            if (options.Port == 0) kestrel.Listen(System.Net.IPAddress.Loopback, 0);
            else kestrel.ListenLocalhost(options.Port);
        });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // The keys protect form tokens on this machine only and lie beside the shelf, readable by its owner.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.Services.AddDataProtection().PersistKeysToFileSystem(
            new DirectoryInfo(Path.Combine(folder.FullName, "keys")));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddSingleton<IShelf>(shelf);
        builder.Services.AddSingleton<IBenchPapers>(shelf);
        builder.Services.AddSingleton<IPhotographs>(shelf);
        builder.Services.AddSingleton<PhotoDesk>();
        builder.Services.AddSingleton<SupplyDesk>();
        builder.Services.AddHostedService<DrawerKeeper>();
        builder.Services.AddHostedService<ShelfWatch>();
        builder.Services.AddSingleton<WakeDesk>();
        builder.Services.AddSingleton(data);
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton(time);
        builder.Services.AddSingleton<OpenBooks>();

        var app = builder.Build();
        app.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
        app.UseAntiforgery();
        app.MapStaticAssets();
        BookDownloads.Map(app, time);
        PlanDownloads.Map(app);
        PhotoRoutes.Map(app);
        BenchEndpoints.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        app.Lifetime.ApplicationStopped.Register(() => shelf.DisposeAsync().AsTask().GetAwaiter().GetResult());
        return app;
    }
}
