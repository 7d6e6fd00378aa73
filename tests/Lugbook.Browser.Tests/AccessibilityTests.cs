using Deque.AxeCore.Commons;
using Microsoft.Playwright;
using static Lugbook.Browser.Tests.BenchFixture;

namespace Lugbook.Browser.Tests;

/// <summary>Source: WCAG 2.2 AA as far as axe-core's rules test it; nothing serious or critical on any page, on a phone by the lamp and on a desktop in the dim.</summary>
[Collection("bench")]
public class AccessibilityTests(BenchFixture bench)
{
    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    public static TheoryData<string> Pages =>
        ["/", "/start", "/bring", "/read", "/book/radio", "/book/radio/parts", "/book/radio/chassis", "/book/radio/chassis/print", "/book/radio/map", "/book/radio/sheet", "/book/radio/judge", "/book/radio/choose", "/book/radio/order", "/book/radio/fit", "/book/radio/bench", "/book/radio/prove", "/book/radio/trace", "/book/radio/photos", "/book/radio/record", "/book/radio/paste", "/book/radio/stage/V3", "/book/radio/power", "/book/radio/meters", "/book/radio/valves", "/book/none", "/nowhere"];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_has_no_serious_fault(string address)
    {
        var page = await bench.PageAsync(390, 844);
        await page.AddInitScriptAsync("try { localStorage.setItem('lugbook-light', 'lamp'); } catch { }");
        await GoAsync(page, address);
        await NoFaultAsync(page, $"{address}, phone, by the lamp");
        await page.SetViewportSizeAsync(1280, 900);
        await page.EvaluateAsync("lugbookLight.set('dim')");
        await NoFaultAsync(page, $"{address}, desktop, in the dim");
        await page.Context.CloseAsync();
    }

    // One run in the page itself: no page has frames, and joining the results of frames would open a second page each time.
    private static async Task NoFaultAsync(IPage page, string where)
    {
        if (await page.EvaluateAsync<bool>("typeof axe === 'undefined'")) await page.EvaluateAsync(Script);
        var faults = await page.EvaluateAsync<string[]>("""
            async () => {
              const { violations, passes } = await axe.run(document, { resultTypes: ['violations'] });
              if (passes.length === 0) throw new Error('axe tested nothing');
              return violations.filter(v => ['serious', 'critical'].includes(v.impact)).map(v => `${v.id}: ${v.help} at ${v.nodes.slice(0, 3).map(n => n.html).join(' | ')}`);
            }
            """);
        Assert.True(faults.Length == 0, $"{where}:\n{string.Join('\n', faults)}");
    }
}
