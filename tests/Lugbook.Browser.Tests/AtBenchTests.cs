using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>A tablet beside the chassis: the network drops, the tablet sleeps, and no tick is lost.</summary>
[Collection("bench")]
public class AtBenchTests(BenchFixture bench)
{
    private static async Task OpenAsync(IPage page, string book)
    {
        await page.GotoAsync($"/book/{book}/bench");
        await Expect(page.Locator("#position")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Expect(page.Locator("#line")).ToHaveTextAsync("stored");
    }

    /// <summary>Goes forward to a position that can be ticked and returns its name.</summary>
    private static async Task<string> TickableAsync(IPage page)
    {
        for (var n = 0; n < 60; n++)
        {
            if (await page.Locator("#done").IsEnabledAsync() && await page.Locator("#done").TextContentAsync() == "Done") return (await page.Locator("#position").TextContentAsync())!;
            await page.Keyboard.PressAsync("ArrowRight");
        }
        throw new InvalidOperationException("No position of the demo can be ticked.");
    }

    [Fact]
    public async Task Ticks_made_without_a_network_are_kept_on_the_tablet_and_stored_when_it_is_back()
    {
        var page = await bench.PageAsync(820, 1180, touch: true);
        await OpenAsync(page, "radio");
        await page.Locator("body[data-kept=yes]").WaitForAsync();
        var first = await TickableAsync(page);
        await page.Context.SetOfflineAsync(true);
        await page.Locator("#done").TapAsync();
        await Expect(page.Locator("#line")).ToContainTextAsync("1 tick kept here");
        await Expect(page.Locator("#position")).Not.ToHaveTextAsync(first);
        await page.Keyboard.PressAsync("n");
        await page.Locator("#words-text").FillAsync("sleeve to the left");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).TapAsync();
        await Expect(page.Locator("#line")).ToContainTextAsync("2 ticks kept here");
        var second = (await page.Locator("#position").TextContentAsync())!;

        // The tablet wakes up with an empty window and still no network: page, sheet and ticks are there.
        await page.ReloadAsync();
        await Expect(page.Locator("#position")).ToBeVisibleAsync();
        await Expect(page.Locator("#line")).ToContainTextAsync("2 ticks kept here");

        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("#line")).ToHaveTextAsync("stored", new() { Timeout = 30_000 });
        var other = await bench.PageAsync();
        await OpenAsync(other, "radio");
        await other.Locator("#all").ClickAsync();
        await Expect(other.GetByRole(AriaRole.Button, new() { NameRegex = new($"^{Regex.Escape(first)} .*done$") })).ToBeVisibleAsync();
        await other.GetByRole(AriaRole.Button, new() { NameRegex = new($"^{Regex.Escape(second)} ") }).ClickAsync();
        await Expect(other.Locator("#card")).ToContainTextAsync("Note: sleeve to the left");
    }

    [Fact]
    public async Task The_pedal_ticks_a_problem_is_noted_and_the_last_tick_is_taken_back()
    {
        var page = await bench.PageAsync(1024, 768);
        await OpenAsync(page, "tv");
        var position = await TickableAsync(page);
        await page.Keyboard.PressAsync("PageDown");
        await Expect(page.Locator("#position")).Not.ToHaveTextAsync(position);
        await Expect(page.Locator("#count")).ToContainTextAsync("1 of");
        await page.Keyboard.PressAsync("u");
        await Expect(page.Locator("#position")).ToHaveTextAsync(position);
        await Expect(page.Locator("#count")).ToContainTextAsync("0 of");
        await Expect(page.Locator("#card")).ToContainTextAsync("open");

        await page.Keyboard.PressAsync("p");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lug broken" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await Expect(page.Locator("#card")).ToContainTextAsync("Problem: Lug broken");
        await Expect(page.Locator("#line")).ToHaveTextAsync("stored");
        await page.ReloadAsync();
        await page.Locator("#all").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { NameRegex = new($"^{Regex.Escape(position)} .*problem: Lug broken$") })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Two_tablets_at_one_chassis_see_each_others_ticks()
    {
        var left = await bench.PageAsync(820, 1180);
        var right = await bench.PageAsync(820, 1180);
        await OpenAsync(left, "amp");
        await OpenAsync(right, "amp");
        var position = await TickableAsync(left);
        await left.Keyboard.PressAsync("Enter");
        await right.Locator("#all").ClickAsync();
        await Expect(right.GetByRole(AriaRole.Button, new() { NameRegex = new($"^{Regex.Escape(position)} .*done$") })).ToBeVisibleAsync();
        await left.Keyboard.PressAsync("u");
        await Expect(right.GetByRole(AriaRole.Button, new() { NameRegex = new($"^{Regex.Escape(position)} .*open$") })).ToBeVisibleAsync();
    }
}
