using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>What users do, in a real Chromium against a real bench with a real database file.</summary>
[Collection("bench")]
public class StoriesTests(BenchFixture bench)
{
    [Fact]
    public async Task A_part_entered_by_keyboard_stands_in_the_drawing_and_is_still_there_after_a_reload()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Marlpit kitchen receiver" }).ClickAsync();
        await page.GetByRole(AriaRole.Navigation, new() { Name = "Stages of this book" }).GetByRole(AriaRole.Link, new() { Name = "Parts" }).ClickAsync();
        await page.GetByLabel(new Regex("Enter a part")).FocusAsync();
        await page.Keyboard.TypeAsync("C77 .02 400 V3-6 V4-5");
        await Expect(page.Locator(".understood")).ToContainTextAsync("C77");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Row, new() { NameRegex = new("^C77") })).ToBeVisibleAsync();

        await GoAsync(page, "/book/radio/chassis");
        await Expect(page.Locator("[data-part=C77]")).ToHaveCountAsync(1);

        await page.ReloadAsync();
        await page.Locator("header[data-ready=yes]").WaitForAsync();
        await Expect(page.Locator("[data-part=C77]")).ToHaveCountAsync(1);

        await GoAsync(page, "/book/radio/parts");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Row, new() { NameRegex = new("^C77") })).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_line_that_cannot_be_read_says_why_and_keeps_what_was_typed()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/amp/parts");
        var line = page.GetByLabel(new Regex("Enter a part"));
        await line.FillAsync("R78 4k7k7 V3-6 V4-5");
        await line.PressAsync("Enter");
        await Expect(page.Locator(".complaint")).ToBeVisibleAsync();
        await Expect(line).ToHaveValueAsync("R78 4k7k7 V3-6 V4-5");
        await Expect(page.GetByRole(AriaRole.Row, new() { NameRegex = new("^R78") })).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Two_windows_on_one_book_stay_in_step()
    {
        var first = await bench.PageAsync();
        var second = await bench.PageAsync(820, 1180);
        await GoAsync(first, "/book/tv/parts");
        await GoAsync(second, "/book/tv/parts");
        await first.GetByLabel(new Regex("Enter a part")).FillAsync("R999 47k half watt");
        await first.Keyboard.PressAsync("Enter");
        await Expect(second.GetByRole(AriaRole.Row, new() { NameRegex = new("^R999") })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task A_newcomer_gets_replacements_and_an_order_from_values_only()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/start");
        await page.GetByLabel("The set").FillAsync("Attic radio");
        await page.GetByLabel("Parts, one on a line").FillAsync("C1 .005 600\nC2 8 mfd 450v\nR1 47K 1/2W");
        await Expect(page.Locator(".understood")).ToContainTextAsync("C1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the book" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("What goes in its place");
        await Expect(page.GetByRole(AriaRole.Row, new() { NameRegex = new("^C1") })).ToContainTextAsync("630 V");
        await page.GetByRole(AriaRole.Navigation, new() { Name = "Stages of this book" }).GetByRole(AriaRole.Link, new() { Name = "Order" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Row).Filter(new() { HasText = "C1" }).First).ToContainTextAsync("4.7 nF");
    }

    [Fact]
    public async Task A_tap_on_a_lug_shows_what_is_soldered_there_and_a_part_can_be_ticked_off()
    {
        var page = await bench.PageAsync(1024, 768, touch: true);
        await GoAsync(page, "/book/amp/chassis");
        await page.GetByLabel("Find a lug or a part").FillAsync("V3-5");
        await page.Keyboard.PressAsync("Enter");
        var place = page.Locator(".place");
        await Expect(place).ToContainTextAsync("Lug V3-5");
        await Expect(place).ToContainTextAsync("R13");
        await place.GetByRole(AriaRole.Button, new() { Name = "C6", Exact = true }).ClickAsync();
        await Expect(place).ToContainTextAsync("0.05 µF");
        await place.GetByRole(AriaRole.Button, new() { Name = "Exchanged: C6" }).ClickAsync();
        await Expect(place).ToContainTextAsync("✓ exchanged");

        await page.GetByRole(AriaRole.Button, new() { Name = "Whole", Exact = true }).ClickAsync();
        var lug = await page.Locator("[data-lug='K1-1']").First.BoundingBoxAsync();
        await page.Touchscreen.TapAsync(lug!.X + lug.Width / 2, lug.Y + lug.Height / 2);
        await Expect(place).ToContainTextAsync("K1-1");
    }

    [Fact]
    public async Task A_marking_and_colours_are_read_on_the_read_page()
    {
        var page = await bench.PageAsync(390, 844, touch: true);
        await GoAsync(page, "/read");
        await page.GetByLabel("What is printed on it").FillAsync(".005 MFD 600V");
        await Expect(page.Locator("article").First).ToContainTextAsync("5000 pF");
        await page.GetByLabel("What is printed on it").FillAsync("");
        foreach (var colour in new[] { "brown", "black", "orange", "silver" })
            await page.GetByRole(AriaRole.Button, new() { Name = colour, Exact = true }).ClickAsync();
        await Expect(page.Locator("article").First).ToContainTextAsync("10 kΩ");
    }

    [Fact]
    public async Task The_sheet_says_what_every_pin_should_read_and_what_moves_it()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/amp/sheet");
        var row = page.GetByRole(AriaRole.Row, new() { NameRegex = new("^V3-8 cathode") });
        await Expect(row).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Expect(row).ToContainTextAsync("agrees");
        await row.GetByText("How do you know?").ClickAsync();
        await Expect(row).ToContainTextAsync("R16");
        await page.GetByText("Meter, line and chart").ClickAsync();
        await page.GetByLabel("Line today, V").FillAsync("125");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(page.GetByText("For a line of 125 V")).ToBeVisibleAsync(new() { Timeout = 60_000 });
    }

    [Fact]
    public async Task Twenty_readings_by_keyboard_are_judged_and_still_there_after_a_reload()
    {
        var page = await bench.PageAsync(820, 1180);
        await GoAsync(page, "/book/radio/judge");
        var field = page.GetByLabel("The meter shows");
        await Expect(field).ToBeFocusedAsync(new() { Timeout = 60_000 });
        // What each part reads when it is good, by the book; every fourth is far too high and must be called bad.
        var good = new Dictionary<string, string>
        {
            ["R1"] = "22k", ["R2"] = "3.3M", ["R3"] = "33k", ["R4"] = "500k", ["R5"] = "10M", ["R6"] = "220k", ["R7"] = "470k", ["R8"] = "150", ["R9"] = "1500", ["R10"] = "220k",
            ["T1P"] = "11", ["T1S"] = "11", ["T2P"] = "11", ["T2S"] = "11", ["T3P"] = "165", ["T3S"] = "0.4", ["L1"] = "1.1", ["L2A"] = "4.2", ["L2B"] = "0.6",
        };
        var bad = new Dictionary<string, string> { ["R3"] = "57k", ["R6"] = "285k", ["R9"] = "2.2k", ["T1P"] = "OL", ["R7"] = "900k" };
        var told = new Dictionary<string, string>();
        for (var n = 0; n < 20 && await field.CountAsync() > 0; n++)
        {
            var name = (await page.Locator("section .huge").First.TextContentAsync())!.Trim();
            await Expect(field).ToBeFocusedAsync();
            await page.Keyboard.TypeAsync(bad.GetValueOrDefault(name) ?? good[name]);
            await page.Keyboard.PressAsync("Enter");
            var said = page.Locator("#said strong").First;
            await Expect(said).ToContainTextAsync($"{name}:", new() { Timeout = 15_000 });
            told[name] = (await said.TextContentAsync())!;
        }
        foreach (var name in bad.Keys.Where(told.ContainsKey)) Assert.Contains("bad", told[name], StringComparison.Ordinal);
        foreach (var name in (string[])["R1", "R8", "R10", "T3P"]) Assert.Contains("good", told[name], StringComparison.Ordinal);
        await page.ReloadAsync();
        await page.Locator("header[data-ready=yes]").WaitForAsync();
        var kept = page.GetByRole(AriaRole.Row, new() { NameRegex = new("^Measure R6") });
        await Expect(kept).ToContainTextAsync("285 kΩ", new() { Timeout = 60_000 });
        await Expect(kept.GetByLabel("Decision for R6")).ToHaveValueAsync("Goes");
    }

    [Fact]
    public async Task A_forgotten_k_is_asked_back_and_an_unreadable_number_is_not_stored()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/amp/judge");
        await Expect(page.GetByLabel("The meter shows")).ToBeFocusedAsync(new() { Timeout = 60_000 });
        await page.GetByRole(AriaRole.Button, new() { Name = "Measure R10", Exact = true }).ClickAsync();
        await page.GetByLabel("The meter shows").FillAsync("250");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#said")).ToContainTextAsync("Was a k, M, n or µ meant?");
        await page.GetByLabel("The meter shows").FillAsync("2.5.0k");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#said")).ToContainTextAsync("Nothing was stored");
        await Expect(page.GetByRole(AriaRole.Row, new() { NameRegex = new("^Measure R10 ") })).Not.ToContainTextAsync("in place");
        // What is stored and taken back is asked for again.
        await page.GetByLabel("The meter shows").FillAsync("285k");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#said")).ToContainTextAsync("R10: bad");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.Locator("section .huge").First).ToHaveTextAsync("R10");
        await Expect(page.Locator("#said")).Not.ToContainTextAsync("R10");
    }

    [Fact]
    public async Task A_meter_and_a_valve_of_ones_own_are_entered_on_a_phone_and_nothing_scrolls_sideways()
    {
        var page = await bench.PageAsync(390, 844, touch: true);
        await GoAsync(page, "/book/amp/meters");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a meter" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("the meter needs a name");
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("bench six");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Use bench six" }).ClickAsync();
        await Expect(page.GetByText("at the bench", new() { Exact = true })).ToBeVisibleAsync();

        await GoAsync(page, "/book/amp/valves?type=9XC7");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a type" }).ClickAsync();
        await page.GetByLabel("Pins, seen from below").FillAsync("2=p;3=g;6=k;7=h;8=h");
        await page.Locator("#l1-0").FillAsync("250");
        await page.Locator("#l1-4").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("grid");
        await page.Locator("#l1-2").FillAsync("-2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(page.GetByText("9XC7 is in this book now.")).ToBeVisibleAsync();
        await Expect(page.GetByText("A new valve's currents spread")).ToBeVisibleAsync();

        await GoAsync(page, "/book/amp/judge");
        await Expect(page.GetByLabel("The meter shows")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Expect(page.GetByLabel("Meter", new() { Exact = true })).ToHaveValueAsync("bench six");
        await Expect(page.Locator("figure.probes text.probe-word")).ToHaveTextAsync(["red +", "black −"]);
        Assert.True(await page.EvaluateAsync<bool>("[document.documentElement, ...document.querySelectorAll('.scroller')].every(e => e.scrollWidth <= e.clientWidth + 1)"));
        // The faint names in the drawing are incidental to a picture (WCAG 2.2, 1.4.3).
        var result = await page.RunAxe(new AxeRunContext { Exclude = [new AxeSelector("figure.probes")] });
        var faults = result.Violations.Where(v => v.Impact is "serious" or "critical").Select(v => $"{v.Id}: {v.Help} at {v.Nodes[0].Html}").ToArray();
        Assert.True(faults.Length == 0, string.Join("\n", faults));
    }

    [Fact]
    public async Task A_reading_of_the_cold_proof_that_is_near_nothing_names_the_short_at_once()
    {
        var page = await bench.PageAsync();
        await GoAsync(page, "/book/amp/prove");
        var first = page.Locator("#cp-1");
        await first.WaitForAsync(new() { Timeout = 60_000 });
        await first.FillAsync("3");
        await first.PressAsync("Enter");
        await Expect(page.Locator("main [role=status] .complaint")).ToContainTextAsync(new Regex("Looks like: the supply .* on common .*No power until that is settled"));
        await Expect(page.Locator("li:has(#cp-1)")).ToContainTextAsync("not as expected");
        Assert.Equal(1, PdfPages(await page.PdfAsync(new() { Format = "A4" })));
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.Locator("main [role=status] .asked")).ToContainTextAsync("No power before");
    }

    // Page objects of an uncompressed page tree: "/Type /Page" and not "/Pages".
    private static int PdfPages(byte[] pdf) => Regex.Count(System.Text.Encoding.Latin1.GetString(pdf), @"/Type\s*/Page\b(?!s)");
}
