using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Trace;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;
using static Microsoft.Playwright.Assertions;

namespace Lugbook.Browser.Tests;

/// <summary>A search followed as it proposes, by keyboard: the meter shows what the set with the fault shows, and the fault is named. The faults are made here, on the circuit engine, and not by the search.</summary>
[Collection("bench")]
public class TraceStoryTests(BenchFixture bench)
{
    private const int MostReadings = 12;

    [Fact]
    public async Task A_leaky_coupling_capacitor_is_found_by_following_the_proposals_and_nonsense_is_not_stored()
    {
        await bench.CopyAsync("amp", "trace-leak");
        var solved = await bench.SolvedAsync("trace-leak");
        var part = solved.Netlist.Map.Book.Parts.Named("C6")!;
        // A size between those that the search has solved.
        var leak = new SlipChange { Further = [new Resistor("leak", solved.Netlist.Map.NodeOf(part.LeadA)!.Index, solved.Netlist.Map.NodeOf(part.LeadB)!.Index, 450e3)] };
        var page = await bench.PageAsync(820, 1180);
        await GoAsync(page, "/book/trace-leak/trace");

        var field = page.Locator(".trace-next input").First;
        await field.FocusAsync();
        await page.Keyboard.TypeAsync("12 parsecs");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Status).Filter(new() { HasText = "Nothing was stored" })).ToBeVisibleAsync();
        await Expect(field).ToHaveValueAsync("12 parsecs");

        await FollowAsync(page, solved, leak, leak);
        await Expect(page.Locator("main")).ToContainTextAsync("C6 leaky");
        await Expect(page.Locator(".suspects li").First).ToContainTextAsync("C6 leaky");
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Redo" })).ToBeEnabledAsync();
    }

    [Fact]
    public async Task A_lead_on_the_wrong_lug_is_found_by_following_the_proposals()
    {
        await bench.CopyAsync("amp", "trace-slip", "R2");
        var solved = await bench.SolvedAsync("trace-slip");
        SlipChange Slip(Network network) => SlipsStage.Of(solved.Netlist with { Network = network }, ["R2"]).First(s => s.Id == "R2.a>V1-6").Change!;
        var page = await bench.PageAsync(820, 1180);
        await GoAsync(page, "/book/trace-slip/trace");
        await FollowAsync(page, solved, Slip(solved.Direct!), Slip(solved.Netlist.Network!));
        await Expect(page.Locator(".suspects li").First).ToContainTextAsync("Lead a of R2 on V1-6 instead of V1-5");
    }

    /// <summary>Enters what the set with the fault shows at the first proposal, until nothing is proposed.</summary>
    private static async Task FollowAsync(IPage page, SolveResult solved, SlipChange running, SlipChange cold)
    {
        var (hot, unplugged) = (running.Of(solved.Direct!), cold.Of(solved.Netlist.Network!));
        var volts = OperatingPoint.Of(hot).Volts;
        var meter = TraceSettings.Of(solved.Netlist.Map.Book).Volts;
        int Node(SlipChange change, string lug) => change.Lugs.TryGetValue(lug, out var moved) ? moved : solved.Netlist.Map.NodeOf(lug)!.Index;
        string Shows(string kind, string from, string to)
        {
            var (change, network) = kind == "Volts" ? (running, hot) : (cold, unplugged);
            var (a, b) = (Node(change, from), Node(change, to));
            var value = kind switch
            {
                "Volts" => Loaded(network, a, b, meter.LoadOhms(volts[a] - volts[b])),
                "Ohms" => Ohms.Between(network, a, b).Ohms,
                _ => Impedance.Between(network, a, b, meter.FaradsHertz).ParallelFarads * 1e6,
            };
            return kind == "Ohms" && value > meter.OhmsTop ? "OL" : value.ToString(kind == "Farads" ? "0.000000" : "0.000", CultureInfo.InvariantCulture) + (kind == "Farads" ? " uF" : "");
        }
        var rows = page.Locator("tr:has(button:has-text('Leave out'))");
        await Expect(page.Locator(".trace-next")).ToHaveCountAsync(1);
        for (var read = await rows.CountAsync(); read < MostReadings && await page.Locator(".trace-next li").CountAsync() > 0; read++)
        {
            var next = page.Locator(".trace-next li").First;
            var shows = Shows((await next.GetAttributeAsync("data-kind"))!, (await next.GetAttributeAsync("data-from"))!, (await next.GetAttributeAsync("data-to"))!);
            await next.Locator("input").FillAsync(shows);
            await next.Locator("input").PressAsync("Enter");
            await Expect(rows).ToHaveCountAsync(read + 1);
            if (await page.Locator("[role=status] p.complaint").CountAsync() > 0) return;
        }
    }

    private static double Loaded(Network network, int a, int b, double ohms)
    {
        var volts = OperatingPoint.Of(network.Adding(new Resistor("meter", a, b, ohms))).Volts;
        return volts[a] - volts[b];
    }
}
