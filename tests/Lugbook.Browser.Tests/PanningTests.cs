using System.Globalization;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>The television (some 250 parts) under a finger. With LUGBOOK_WRITE_DOCS naming a folder, the times between frames and pictures of the page are written there.</summary>
[Collection("bench")]
public class PanningTests(BenchFixture bench, ITestOutputHelper output)
{
    [Fact]
    public async Task A_finger_pans_the_television_and_every_frame_shows_it_farther()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await GoAsync(page, "/book/tv/chassis");
        await page.WaitForTimeoutAsync(500);
        for (var i = 0; i < 4; i++) await page.GetByRole(AriaRole.Button, new() { Name = "Nearer" }).ClickAsync();
        var box = (await page.Locator(".drawing").BoundingBoxAsync())!;
        var before = await ViewAsync(page);
        var device = await page.Context.NewCDPSessionAsync(page);
        Task Touch(string type, double x, double y) => device.SendAsync("Input.dispatchTouchEvent", new Dictionary<string, object>
        {
            ["type"] = type, ["touchPoints"] = type == "touchEnd" ? Array.Empty<object>() : [new Dictionary<string, object> { ["x"] = x, ["y"] = y }],
        });
        await page.EvaluateAsync("""
            () => { window.frames_ = []; let last = performance.now(), seen = '';
              const step = now => { const box = document.querySelector('.drawing svg').getAttribute('viewBox'); window.frames_.push([now - last, box !== seen ? 1 : 0]); seen = box; last = now; if (window.frames_.length < 2000) requestAnimationFrame(step); };
              requestAnimationFrame(step); }
            """);
        double x0 = box.X + box.Width * 0.8, y0 = box.Y + box.Height * 0.7;
        await Touch("touchStart", x0, y0);
        for (var i = 1; i <= 60; i++) await Touch("touchMove", x0 - i * 6, y0 - i * 3);
        await Touch("touchEnd", 0, 0);
        var frames = await page.EvaluateAsync<double[][]>("() => window.frames_");
        var after = await ViewAsync(page);
        Assert.True(after[0] > before[0] && after[1] > before[1], "the view did not follow the finger");
        var moving = frames.Where(f => f[1] == 1).Select(f => f[0]).Skip(2).Order().ToArray();
        Assert.True(moving.Length > 5, $"the view moved in {moving.Length} frames only");
        var line = string.Create(CultureInfo.InvariantCulture, $"{moving.Length} frames that moved; between frames: median {moving[moving.Length / 2]:0.0} ms, 90 of 100 within {moving[(int)(moving.Length * 0.9)]:0.0} ms");
        output.WriteLine(line);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is not { Length: > 0 } folder) return;
        await File.WriteAllTextAsync(Path.Combine(folder, "panning.txt"), line + "\n", TestContext.Current.CancellationToken);
        foreach (var (name, width, height) in new[] { ("phone", 390, 844), ("tablet", 820, 1180), ("desktop", 1400, 900) })
        {
            var shown = await bench.PageAsync(width, height, touch: true);
            await GoAsync(shown, "/book/amp/chassis");
            await shown.GetByRole(AriaRole.Button, new() { Name = "Place", Exact = true }).ClickAsync();
            await shown.Locator("[data-choose]").SelectOptionAsync("mount B");
            await Expect(shown.GetByRole(AriaRole.Button, new() { Name = "Take out" })).ToBeVisibleAsync();
            await shown.ScreenshotAsync(new() { Path = Path.Combine(folder, $"place-{name}.png"), FullPage = name == "phone" });
            await GoAsync(shown, "/book/tv/chassis");
            await shown.WaitForTimeoutAsync(600);
            await shown.ScreenshotAsync(new() { Path = Path.Combine(folder, $"tv-{name}.png") });
        }
    }

    private static async Task<double[]> ViewAsync(IPage page) =>
        [.. (await page.Locator(".drawing svg").GetAttributeAsync("viewBox"))!.Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
}
