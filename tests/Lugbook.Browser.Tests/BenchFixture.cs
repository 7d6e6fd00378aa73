using System.Text;
using Lugbook.Restoration.Solve;
using Lugbook.Store.Shelves;
using Lugbook.Trade;
using Lugbook.Trade.Work;
using Lugbook.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Lugbook.Browser.Tests;

/// <summary>A real bench on a free port with a shelf of its own, and a real Chromium.</summary>
public sealed class BenchFixture : IAsyncLifetime
{
    private static readonly string[] Quiet =
        ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"lugbook-browser-{Guid.NewGuid():N}");
    private WebApplication? _app;
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where the bench answers.</summary>
    public string Address { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        // A machine that builds beside the tests is slow, not wrong.
        Assertions.SetDefaultExpectTimeout(20_000);
        Directory.CreateDirectory(_folder);
        _app = await BenchApp.BuildAsync(new BenchOptions(0, Path.Combine(_folder, "shelf.db"), BenchOptions.UsualDataFolder()), TimeProvider.System, default);
        await _app.StartAsync();
        Address = _app.Urls.First();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("LUGBOOK_CHROMIUM") ?? "/usr/bin/chromium",
            Args = Quiet,
        });
    }

    /// <summary>A demo book once more, under a name of its own, for a story that no other meddles with; these positions are exchanged in it.</summary>
    public async Task CopyAsync(string demo, string name, params string[] done)
    {
        var shelf = _app!.Services.GetRequiredService<IShelf>();
        var work = Table<PositionWork>.Of(done.Select(d => new PositionWork { Name = d, Done = true }));
        await shelf.AddAsync((await shelf.OpenAsync(demo, default)).Book with { Name = name, Work = work }, "story", "begun", default);
    }

    /// <summary>A book of the bench, solved.</summary>
    public async Task<SolveResult> SolvedAsync(string name) => (await _app!.Services.GetRequiredService<OpenBooks>().OpenAsync(name, default)).Solved;

    /// <summary>What lies in the drawer from now on.</summary>
    public async Task DrawerAsync(string csv) =>
        await _app!.Services.GetRequiredService<SupplyDesk>().BringDrawerAsync(new("drawer.csv", Encoding.UTF8.GetBytes(csv)), default);

    /// <summary>A fresh browser window of this size.</summary>
    public async Task<IPage> PageAsync(int width = 1280, int height = 900, bool touch = false)
    {
        var context = await _browser!.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, HasTouch = touch, BaseURL = Address });
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(40_000);
        return page;
    }

    /// <summary>Opens an address and waits until clicks will be heard.</summary>
    public static async Task GoAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        await page.Locator("header[data-ready=yes]").WaitForAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }
        Directory.Delete(_folder, recursive: true);
    }
}

[CollectionDefinition("bench")]
public sealed class BenchCollection : ICollectionFixture<BenchFixture>;
