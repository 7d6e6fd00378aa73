using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>The first power in a real browser.</summary>
[Collection("bench")]
public partial class WakeStoryTests(BenchFixture bench)
{
    [Fact]
    public async Task The_first_power_prints_on_one_page_and_too_much_current_says_switch_off()
    {
        var page = await bench.PageAsync(820, 1180);
        await GoAsync(page, "/book/amp/wake");
        await page.GetByLabel("Limiter lamps, W").FillAsync("60");
        await page.GetByLabel("Healthy sets to try").FillAsync("8");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        var current = page.GetByLabel("Step 1: current from the line, A");
        await Expect(current).ToBeVisibleAsync(new() { Timeout = 120_000 });
        await Expect(page.Locator(".wake-step")).ToHaveCountAsync(4);
        Assert.Equal(1, Pages(await page.PdfAsync(new() { Format = "A4", Margin = new() { Top = "8mm", Bottom = "8mm", Left = "8mm", Right = "8mm" } })));
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder)
        {
            await page.PdfAsync(new() { Format = "A4", Path = Path.Combine(folder, "wake.pdf") });
            foreach (var (name, width, height) in new[] { ("phone", 390, 844), ("tablet", 820, 1180), ("desktop", 1400, 900) })
            {
                await page.SetViewportSizeAsync(width, height);
                await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"wake-{name}.png"), FullPage = true });
            }
        }
        await current.FillAsync("5");
        await current.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Alert).Filter(new() { HasText = "Switch off now." })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Clear the readings" }).ClickAsync();
        await Expect(page.GetByText("Switch off now.")).ToHaveCountAsync(0);

        await page.GetByLabel("Capacitor").SelectOptionAsync("C10A");
        await page.GetByLabel("Minutes since it was joined").FillAsync("120");
        await page.GetByLabel("Volts across the resistor").FillAsync("10000");
        await page.GetByRole(AriaRole.Button, new() { Name = "Note it" }).ClickAsync();
        await Expect(page.GetByText("Nothing was stored.")).ToBeVisibleAsync();
        await page.GetByLabel("Supply, V").FillAsync("300");
        await page.GetByLabel("Volts across the resistor").FillAsync("298");
        await page.GetByRole(AriaRole.Button, new() { Name = "Note it" }).ClickAsync();
        await Expect(page.GetByText("it is a short, or joined the wrong way round").First).ToBeVisibleAsync();
    }

    /// <summary>Page objects of a PDF (ISO 32000-1, 7.7.3.3).</summary>
    private static int Pages(byte[] pdf) => PageObject().Count(Encoding.Latin1.GetString(pdf));

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex PageObject();
}
