using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>The job sheet on a tablet: plan, check after soldering, drawer, clearance, paper; and the same at the bench.</summary>
[Collection("drawer")]
public class FitStoryTests(BenchFixture bench)
{
    [Fact]
    public async Task A_position_is_planned_checked_and_fitted_from_the_drawer_and_paper_is_entered_in_one_sweep()
    {
        await bench.CopyAsync("amp", "fit-story");
        await bench.DrawerAsync("item,value,volts,kind,count\nred box,22n,630,film,3\n");
        var page = await bench.PageAsync(820, 1180, touch: true);
        await GoAsync(page, "/book/fit-story/fit");
        var step = page.GetByRole(AriaRole.Article, new() { NameRegex = new Regex("^Step [0-9]+: C4$") });
        await Expect(step.GetByRole(AriaRole.Table)).ToContainTextAsync(new Regex("[0-9] mm"));
        await Expect(step).ToContainTextAsync("apart in plan");

        // A figure that no healthy chassis gives.
        var check = page.GetByRole(AriaRole.Region, new() { Name = "Check C4 after soldering" });
        await check.GetByRole(AriaRole.Button, new() { Name = "Check C4 after soldering" }).ClickAsync();
        await check.GetByRole(AriaRole.Textbox).First.FillAsync("0.5u");
        await check.GetByRole(AriaRole.Button, new() { Name = "Store" }).First.ClickAsync();
        await Expect(check).ToContainTextAsync("not as expected");

        await step.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Done, with .*, C4$") }).ClickAsync();
        await Expect(step).ToContainTextAsync("Counted down in the drawer");
        await Expect(step).ToContainTextAsync("2 left");

        await page.GetByText("Enter a sweep").ClickAsync();
        await page.GetByLabel("Steps or parts").FillAsync("C6, C7");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter", Exact = true }).ClickAsync();
        await Expect(page.GetByText(new Regex("^Entered: .*C6.*C7"))).ToBeVisibleAsync();
        await Expect(page.GetByText("3 of 13", new() { Exact = true })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByText("1 of 13", new() { Exact = true })).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Clearance and materials" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Region, new() { Name = "Clearance", Exact = true })).ToContainTextAsync("to be sleeved");
        await Expect(page.GetByRole(AriaRole.Region, new() { Name = "Materials and time" })).ToContainTextAsync("solder");
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));

        // Beside the chassis: the same position, its check with what was read, a photograph; and another piece leaves the drawer with the network gone.
        await page.GotoAsync("/book/fit-story/bench");
        await page.Locator("#all").TapAsync();
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^C4 .*done$") }).TapAsync();
        await Expect(page.Locator("#card")).ToContainTextAsync("Counted down in the drawer");
        await Expect(page.Locator("#check")).ToContainTextAsync("not as expected");
        await Expect(page.Locator("#check")).ToContainTextAsync("What a slip would show");
        await page.GetByLabel("Photograph C4, after").SetInputFilesAsync(new FilePayload { Name = "a.png", MimeType = "image/png", Buffer = await page.Locator("#card").ScreenshotAsync() });
        await Expect(page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Photograph P1 of C4, after") })).ToBeVisibleAsync();

        await page.Locator("#done").TapAsync();
        await Expect(page.Locator("#line")).ToHaveTextAsync("stored");
        await Expect(page.Locator("#from-drawer")).ToBeVisibleAsync();
        await page.Locator("body[data-kept=yes]").WaitForAsync();
        await page.Context.SetOfflineAsync(true);
        await page.Locator("#from-drawer").TapAsync();
        await Expect(page.Locator("#line")).ToContainTextAsync("1 tick kept here");
        await page.Context.SetOfflineAsync(false);
        await Expect(page.Locator("#line")).ToHaveTextAsync("stored", new() { Timeout = 30_000 });
        await page.Locator("#all").TapAsync();
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^C4 .*done$") }).TapAsync();
        await Expect(page.Locator("#card")).ToContainTextAsync("2 left");
    }
}

/// <summary>A bench of its own: what lies in the drawer changes what the others order.</summary>
[CollectionDefinition("drawer", DisableParallelization = true)]
public sealed class DrawerCollection : ICollectionFixture<BenchFixture>;
