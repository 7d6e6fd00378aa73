using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Lugbook.Web;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>Bring a list, solve, order, receive, label; and take all of it back.</summary>
[Collection("bench")]
public class OrderStoryTests(BenchFixture bench)
{
    private static string ListFile(string name) => Path.Combine(BenchOptions.UsualDataFolder(), "lists", name);

    [Fact]
    public async Task A_list_is_brought_the_plan_solved_ordered_and_received()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/amp/order");
        await page.GetByLabel("Supplier lists", new() { Exact = true }).SetInputFilesAsync([ListFile("northgate.csv"), ListFile("suedufer.csv")]);
        await Expect(page.GetByText(new Regex(@"^Northgate Parts: \d+ lines kept\.$"))).ToBeVisibleAsync();
        await page.GetByLabel("Drawer, counted").SetInputFilesAsync(ListFile("drawer.csv"));
        await Expect(page.GetByText("Drawer: 6 lines kept.")).ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Work out the cheapest plan" }).ClickAsync();
        await Expect(page.GetByText("Proven: no other plan")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Region, new() { Name = "From the drawer" })).ToContainTextAsync("C4");
        var north = page.GetByRole(AriaRole.Region, new() { Name = "Order to Northgate Parts" });
        await Expect(north).ToContainTextAsync("N1008");

        await page.GetByRole(AriaRole.Button, new() { Name = "Not this: N1008" }).ClickAsync();
        await Expect(page.GetByText("Allow Northgate Parts:N1008 again")).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Not this: N1008" })).ToHaveCountAsync(0);
        await page.GetByText("Allow Northgate Parts:N1008 again").ClickAsync();
        await Expect(north).ToContainTextAsync("N1008");
        Assert.Equal("", string.Join("\n", await Faults(page)));

        await page.GetByRole(AriaRole.Button, new() { Name = "I have ordered this" }).ClickAsync();
        var ordered = page.GetByRole(AriaRole.Region, new() { Name = "On order" });
        await ordered.GetByRole(AriaRole.Checkbox, new() { Name = "N1008 came" }).CheckAsync();
        await page.ReloadAsync();
        await page.Locator("header[data-ready=yes]").WaitForAsync();
        await Expect(ordered.GetByRole(AriaRole.Checkbox, new() { Name = "N1008 came" })).ToBeCheckedAsync();

        await GoAsync(page, "/book/amp/labels");
        // Another story may have exchanged one of the two positions of this line on the shared bench.
        var label = page.GetByRole(AriaRole.Article, new() { NameRegex = new Regex("^Label of ") }).Filter(new() { HasText = "47 nF 630 V film" }).First;
        await Expect(label).ToContainTextAsync(new Regex("C[67]"));
        var position = (await label.Locator("strong").First.InnerTextAsync()).Trim();
        await Expect(label.Locator("svg path")).ToHaveAttributeAsync("d", new Regex("^M4 4h7v1"));   // the finder pattern, after a quiet zone of four
        Assert.Equal("", string.Join("\n", await Faults(page)));
        await GoAsync(page, $"/book/amp/position/{position}");
        await Expect(page.GetByText("Northgate Parts, N1008: came")).ToBeVisibleAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));
        await GoAsync(page, "/book/amp/quotation");
        await Expect(page.GetByText("Hours together")).ToBeVisibleAsync();
        Assert.Equal("", string.Join("\n", await Faults(page)));

        await GoAsync(page, "/book/amp/order");
        await page.Locator("summary", new() { HasText = "Suppliers and drawer" }).ClickAsync();
        // Everything can be taken back, to the empty bench.
        for (var i = 0; i < 30; i++)
        {
            var back = page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Take back: ") }).First;
            if (await page.GetByText("an order of size, not an offer").CountAsync() > 0) break;
            await back.ClickAsync();
            await page.WaitForTimeoutAsync(150);
        }
        await Expect(page.GetByText("an order of size, not an offer")).ToBeVisibleAsync();
        await page.CloseAsync();
    }

    private static async Task<string[]> Faults(IPage page) => [.. (await page.RunAxe()).Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help} at {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}")];
}
