using Deque.AxeCore.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;

namespace Lugbook.Browser.Tests;

/// <summary>Source: WCAG 2.2 AA as far as axe-core's rules test it; nothing serious or critical on any page, at phone and desktop size.</summary>
[Collection("bench")]
public class AccessibilityTests(BenchFixture bench)
{
    public static TheoryData<string> Pages =>
        ["/", "/start", "/bring", "/read", "/book/radio", "/book/radio/parts", "/book/radio/chassis", "/book/radio/map", "/book/radio/sheet", "/book/radio/judge", "/book/radio/choose", "/book/radio/order", "/book/radio/fit", "/book/radio/bench", "/book/radio/photos", "/book/radio/record", "/book/radio/paste", "/book/radio/stage/V3", "/book/radio/power", "/book/radio/meters", "/book/radio/valves", "/book/none", "/nowhere"];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_has_no_serious_fault(string address)
    {
        foreach (var (width, height, light) in new[] { (390, 844, "lamp"), (1280, 900, "dim") })
        {
            var page = await bench.PageAsync(width, height);
            await page.AddInitScriptAsync($"try {{ localStorage.setItem('lugbook-light', '{light}'); }} catch {{ }}");
            await GoAsync(page, address);
            var result = await page.RunAxe();
            var faults = result.Violations.Where(v => v.Impact is "serious" or "critical")
                .Select(v => $"{v.Id}: {v.Help} at {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}");
            Assert.True(!faults.Any(), $"{address}, {width} wide, {light}:\n{string.Join('\n', faults)}");
            Assert.NotEmpty(result.Passes);   // axe did run
            await page.CloseAsync();
        }
    }
}
