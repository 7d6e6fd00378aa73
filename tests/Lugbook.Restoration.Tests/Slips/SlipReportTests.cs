using System.Diagnostics;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Slips;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Restoration.Tests.Unseen;
using Lugbook.Trade;
using Lugbook.Trade.Meters;

namespace Lugbook.Restoration.Tests.Slips;

/// <summary>How much the after-checks see, book by book: the page in docs/accuracy is written from here (docs/slips.md names the command).</summary>
public class SlipReportTests
{
    private static readonly string[] Books = ["radio", "amp", "tv", .. UnseenBooks.Names];
    private static readonly BenchMeters Bridge = new(MeterShelf.All[0], MeterShelf.Named("lcr-bridge"));

    private static Book Of(string name) => name is "radio" or "amp" or "tv" ? DemoBooks.Named(name) : UnseenBooks.Named(name);

    internal static (NetlistResult Netlist, System.Collections.Immutable.ImmutableArray<Exchange> Work) WorkOf(Book book)
    {
        var map = MapStage.Run(book, DemoBooks.Handbook);
        var choices = ChooseStage.Run(map, Shop.Policy);
        return (Solved.Netlist(book), SlipsStage.WorkOf(FitStage.Run(map, choices), choices));
    }

    [Fact]
    public void Every_slip_of_every_position_is_exposed_or_named_as_one_for_the_eye()
    {
        var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        text.WriteLine("# What after-checks see\n");
        text.WriteLine("For every position of the job sheet, in its order, every slip that can happen there: a lead on a neighbouring lug, missed leads, bridges, a part reversed, wires displaced or off, another value (ten times, a tenth, another new part of the same sort), an empty position, the old part left. Radio, amp and tv are the demo books; superhet, hifi, tester and stage are chassis that the demos do not cover. *Exposed*: nothing that a healthy chassis may show at that moment could come of the slip. *Told apart*: exposed, and no other slip gives what it gives. *For the eye*: no reading among the lugs at hand exposes it. *By ohms to common alone*: every lug at hand read to common. Processor seconds are those of all checks of the book together, both cores counted; the first row of all holds the warming up. How it is done: docs/slips.md. Written by the test `Every_slip_of_every_position_is_exposed_or_named_as_one_for_the_eye` with `LUGBOOK_WRITE_DOCS` naming the folder.\n");
        // The whole page takes a minute: it is written when asked for, and the two small demos are looked at always.
        var folder = Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS");
        var books = folder is { Length: > 0 } ? Books : ["radio", "amp"];
        var geometric = new Dictionary<string, (int All, int Exposed, int Apart)>();
        var byKind = new Dictionary<(string, SlipKind), (int All, int Exposed, int Apart)>();
        foreach (var (meters, words) in new[] { (Bridge, "A digital hand meter for ohms; capacitance at 1 kHz by a bridge or component meter."), (new BenchMeters(MeterShelf.All[0], MeterShelf.All[0]), "One digital hand meter for both; capacitance at 120 Hz."), (new BenchMeters(MeterShelf.All[0], null), "Ohms alone.") })
        {
            text.WriteLine($"## {words}\n");
            text.WriteLine("| book | positions | slips | exposed | told apart | for the eye | by ohms to common alone | by the single best reading | readings, median | 90 % | processor seconds |\n|---|---|---|---|---|---|---|---|---|---|---|");
            foreach (var name in books)
            {
                var (netlist, work) = WorkOf(Of(name));
                var before = Process.GetCurrentProcess().TotalProcessorTime;
                var checks = SlipsStage.Checks(netlist, work, meters);
                var seconds = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;
                Assert.Equal(work.Length, checks.Length);
                foreach (var check in checks)
                {
                    Assert.True(check.IsProven, $"{name} {check.Position}");
                    Assert.All(check.Slips, s => Assert.True(s.Exposed == check.Readings.Any(r => r.Slips.Any(x => x.Slip.Id == s.Slip.Id && x.Exposed))));
                    Assert.All(check.Slips.Where(s => !s.Exposed), s => Assert.Contains(s.Slip.LookAt, check.LookAt));
                }
                double all = checks.Sum(c => c.Slips.Length);
                var counts = checks.Select(c => c.Readings.Length).Order().ToArray();
                string Share(double n) => FormattableString.Invariant($"{100 * n / all:0} %");
                text.WriteLine(FormattableString.Invariant($"| {name} | {checks.Length} | {all:0} | {Share(checks.Sum(c => c.Slips.Count(s => s.Exposed)))} | {Share(checks.Sum(c => c.Slips.Count(s => s.ToldApart)))} | {Share(checks.Sum(c => c.Slips.Count(s => !s.Exposed)))} | {Share(checks.Sum(c => c.ShownByOhmsToCommon))} | {Share(checks.Sum(c => c.ShownBySingleBest))} | {counts[counts.Length / 2]} | {counts[(int)Math.Ceiling(0.9 * counts.Length) - 1]} | {seconds:0.0} |"));
                if (meters != Bridge) continue;
                foreach (var slip in checks.SelectMany(c => c.Slips).Where(s => s.Slip.IsGeometric)) geometric[name] = (geometric.GetValueOrDefault(name).All + 1, geometric.GetValueOrDefault(name).Exposed + (slip.Exposed ? 1 : 0), geometric.GetValueOrDefault(name).Apart + (slip.ToldApart ? 1 : 0));
                foreach (var g in checks.SelectMany(c => c.Slips).GroupBy(s => s.Slip.Kind)) byKind[(name, g.Key)] = (g.Count(), g.Count(s => s.Exposed), g.Count(s => s.ToldApart));
            }
            text.WriteLine();
        }
        Shares(text, books, geometric);
        text.WriteLine("## By kind of slip, bridge at 1 kHz: exposed (told apart) of how many\n");
        text.WriteLine($"| kind | {string.Join(" | ", books)} |\n|---|{string.Concat(books.Select(_ => "---|"))}");
        foreach (var kind in Enum.GetValues<SlipKind>())
            text.WriteLine($"| {kind} | {string.Join(" | ", books.Select(b => byKind.TryGetValue((b, kind), out var n) ? FormattableString.Invariant($"{n.Exposed} ({n.Apart}) of {n.All}") : ""))} |");
        if (folder is { Length: > 0 }) File.WriteAllText(Path.Combine(folder, "slips.md"), text.ToString());
    }

    private static void Shares(StringWriter text, string[] books, Dictionary<string, (int All, int Exposed, int Apart)> geometric)
    {
        text.WriteLine("## Geometric slips alone, bridge at 1 kHz\n");
        text.WriteLine("Leads, wires and bridges, without wrong values, empty positions and old parts.\n");
        text.WriteLine("| book | slips | exposed | told apart | for the eye |\n|---|---|---|---|---|");
        foreach (var book in books.Where(geometric.ContainsKey))
        {
            var (all, exposed, apart) = geometric[book];
            text.WriteLine(FormattableString.Invariant($"| {book} | {all} | {100.0 * exposed / all:0} % | {100.0 * apart / all:0} % | {100.0 * (all - exposed) / all:0} % |"));
        }
        text.WriteLine();
    }
}
