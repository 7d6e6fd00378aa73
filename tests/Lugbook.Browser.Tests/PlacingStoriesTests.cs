using System.Globalization;
using System.IO.Compression;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>Laying mounts on the chassis by mouse, finger and keys. What is stored is read from the book's own file; data: the demo amplifier.</summary>
[Collection("bench")]
public class PlacingStoriesTests(BenchFixture bench)
{
    [Fact]
    public async Task A_strip_dragged_by_mouse_comes_to_rest_in_line_is_stored_once_seen_elsewhere_and_taken_back()
    {
        var page = await bench.PageAsync(1400, 900);
        var other = await bench.PageAsync(1400, 900);
        await OpenAsync(page);
        await GoAsync(other, "/book/amp/chassis");
        var before = await LugsAsync(page);
        await DragAsync(page, "A-2", 11.3, 20.2, touch: false);
        await Expect(page.Locator(".place-said")).ToContainTextAsync("A put at");
        var after = await LugsAsync(page);
        var (dx, dy) = (after["A-1"].X - before["A-1"].X, after["A-1"].Y - before["A-1"].Y);
        Assert.InRange(dx, 8.5, 14.1);
        Assert.InRange(dy, 17.4, 23);
        foreach (var lug in new[] { "A-2", "A-3", "A-4", "A-5" })
        {
            Assert.Equal(dx, after[lug].X - before[lug].X, 0.11);
            Assert.Equal(dy, after[lug].Y - before[lug].Y, 0.11);
        }
        // At rest: in line with a lug or the middle of another mount, or on the grid of 1 mm.
        var middle = (after["A-1"].X + after["A-5"].X) / 2;
        Assert.True(after.Where(l => !l.Key.StartsWith("A-", StringComparison.Ordinal)).Any(l => after.Keys.Where(k => k.StartsWith("A-", StringComparison.Ordinal)).Any(k => Math.Abs(after[k].X - l.Value.X) < 0.06))
            || Math.Abs(middle - Math.Round(middle)) < 0.06, $"A came to rest at {middle}");
        Assert.Equal(before.Count(l => l.Key.StartsWith("A-", StringComparison.Ordinal)), before.Count(l => after[l.Key] != l.Value));
        await Expect(other.GetByRole(AriaRole.Button, new() { Name = "Undo" })).ToHaveAttributeAsync("title", new Regex("A put at"));

        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Redo" })).ToBeEnabledAsync();
        Assert.Equal(before, await LugsAsync(page));
    }

    [Fact]
    public async Task A_strip_dragged_by_finger_snaps_into_line_with_a_lug()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await OpenAsync(page);
        var before = await LugsAsync(page);
        // B's lugs stand at y = 62. A's stand at 30: let go 0.8 mm short of that row, they stand in that row.
        await DragAsync(page, "A-4", 2, 31.2, touch: true);
        await Expect(page.Locator(".place-said")).ToContainTextAsync("A put at");
        var after = await LugsAsync(page);
        Assert.All(after.Where(l => l.Key.StartsWith("A-", StringComparison.Ordinal)), l => Assert.Equal(62.0, l.Value.Y, 0.01));
        Assert.InRange(after["A-1"].X - before["A-1"].X, 0, 5);
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Redo" })).ToBeEnabledAsync();
        Assert.Equal(before, await LugsAsync(page));
    }

    [Fact]
    public async Task Arrow_keys_and_numbers_move_and_turn_a_mount_and_a_used_one_is_not_taken_out()
    {
        var page = await bench.PageAsync();
        await OpenAsync(page);
        var before = await LugsAsync(page);
        await page.Locator("[data-choose]").SelectOptionAsync("mount B");
        await page.Locator(".drawing").FocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("Shift+ArrowUp");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".place-said")).ToContainTextAsync("B put at 282, 67 mm");
        var after = await LugsAsync(page);
        Assert.Equal((before["B-1"].X + 1, before["B-1"].Y + 5), after["B-1"]);

        await page.GetByLabel("turn, °").FillAsync("90");
        await page.GetByRole(AriaRole.Button, new() { Name = "Move", Exact = true }).ClickAsync();
        await Expect(page.Locator(".place-said")).ToContainTextAsync("turned 90°");
        after = await LugsAsync(page);
        Assert.Equal((282.0, 67.0 - 19), after["B-5"]);

        await page.GetByRole(AriaRole.Button, new() { Name = "Take out" }).ClickAsync();
        await Expect(page.Locator(".complaint")).ToContainTextAsync("B stays: on it are");
        await page.GetByLabel("x, mm").First.FillAsync("left a bit");
        await page.GetByRole(AriaRole.Button, new() { Name = "Move", Exact = true }).ClickAsync();
        await Expect(page.Locator(".complaint").Last).ToContainTextAsync("Nothing was moved");

        for (var i = 0; i < 2; i++)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
            await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Redo" })).ToHaveAttributeAsync("title", new Regex(i == 0 ? "turned 90" : "282, 67 mm$"));
        }
        Assert.Equal(before, await LugsAsync(page));
    }

    [Fact]
    public async Task A_strip_from_the_drawer_is_put_by_a_tap_with_its_foot_and_taken_out_again()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await OpenAsync(page);
        await page.Locator("[data-new-name]").FillAsync("QQ");
        await page.GetByRole(AriaRole.Textbox, new() { Name = "foot" }).FillAsync("3");
        await page.Locator("[data-new-name]").PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it by a tap" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Tap where it goes" })).ToBeVisibleAsync();
        var drawing = await page.Locator(".drawing").BoundingBoxAsync();
        await page.Touchscreen.TapAsync(drawing!.X + drawing.Width / 2, drawing.Y + drawing.Height / 2);
        await Expect(page.Locator("[data-mount=QQ]")).ToHaveCountAsync(1);
        await Expect(page.Locator("[data-lug^='QQ-']")).ToHaveCountAsync(5);
        var lugs = await LugsAsync(page);
        Assert.Equal(4 * 9.5, lugs["QQ-5"].X - lugs["QQ-1"].X, 0.11);

        await page.GetByRole(AriaRole.Button, new() { Name = "Take out" }).ClickAsync();
        await Expect(page.Locator("[data-mount=QQ]")).ToHaveCountAsync(0);
        Assert.DoesNotContain((await LugsAsync(page)).Keys, k => k.StartsWith("QQ", StringComparison.Ordinal));
    }

    private static async Task OpenAsync(IPage page)
    {
        await GoAsync(page, "/book/amp/chassis");
        await page.GetByRole(AriaRole.Button, new() { Name = "Place", Exact = true }).ClickAsync();
        await Expect(page.Locator(".drawing.placing")).ToBeVisibleAsync();
        await page.WaitForTimeoutAsync(400);   // the script takes the drawing after the page has it
    }

    /// <summary>Drags from the middle of a lug by millimetres of the chassis (x right, y to the rear), in twelve steps.</summary>
    private static async Task DragAsync(IPage page, string lug, double right, double rear, bool touch)
    {
        await page.Locator(".drawing").ScrollIntoViewIfNeededAsync();
        var box = (await page.Locator($"[data-lug='{lug}'] .lug").BoundingBoxAsync())!;
        var scale = await page.EvaluateAsync<double>("() => document.querySelector('.drawing svg').getScreenCTM().a");
        double x = box.X + box.Width / 2, y = box.Y + box.Height / 2, toX = x + right * scale, toY = y - rear * scale;
        if (!touch)
        {
            await page.Mouse.MoveAsync((float)x, (float)y);
            await page.Mouse.DownAsync();
            await page.Mouse.MoveAsync((float)toX, (float)toY, new() { Steps = 12 });
            await Expect(page.Locator(".ghost")).ToHaveCountAsync(1);
            await page.Mouse.UpAsync();
            return;
        }
        var device = await page.Context.NewCDPSessionAsync(page);
        Task Touch(string type, double px, double py) => device.SendAsync("Input.dispatchTouchEvent", new Dictionary<string, object>
        {
            ["type"] = type, ["touchPoints"] = type == "touchEnd" ? Array.Empty<object>() : [new Dictionary<string, object> { ["x"] = px, ["y"] = py }],
        });
        await Touch("touchStart", x, y);
        for (var i = 1; i <= 12; i++) await Touch("touchMove", x + (toX - x) * i / 12, y + (toY - y) * i / 12);
        await Expect(page.Locator(".ghost")).ToHaveCountAsync(1);
        await Touch("touchEnd", 0, 0);
    }

    /// <summary>The lugs' places as stored: from the book's file.</summary>
    private static async Task<Dictionary<string, (double X, double Y)>> LugsAsync(IPage page)
    {
        using var zip = new ZipArchive(new MemoryStream(await (await page.Context.APIRequest.GetAsync("/book/amp/file.zip")).BodyAsync()));
        using var text = new StreamReader(zip.Entries.First(e => e.Name.EndsWith("lugs.csv", StringComparison.Ordinal)).Open());
        var lugs = new Dictionary<string, (double, double)>();
        foreach (var line in (await text.ReadToEndAsync()).Split('\n').Skip(1))
            if (Regex.Match(line, @"^(?<lug>[^,]+),.*?,(?<x>-?\d+\.?\d*),(?<y>-?\d+\.?\d*),[^,]*$|^(?<lug>[^,]+),.*?,(?<x>-?\d+\.?\d*),(?<y>-?\d+\.?\d*),""") is { Success: true } m)
                lugs[m.Groups["lug"].Value] = (double.Parse(m.Groups["x"].Value, CultureInfo.InvariantCulture), double.Parse(m.Groups["y"].Value, CultureInfo.InvariantCulture));
        return lugs;
    }
}
