using CsCheck;
using Lugbook.Restoration.Map;
using Lugbook.Trade;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>
/// Source: none; a measurement. One lead of one part, or one end of one wire, is moved to another lug of another node: how often does some rule notice?
/// The bounds are for sanity only: nothing is tuned to them.
/// </summary>
public class MutationTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    [InlineData("tv")]
    public void A_moved_lead_is_noticed_in_a_measured_share_of_cases(string name)
    {
        var book = DemoBooks.Named(name);
        var parts = book.Parts.Where(p => p.LeadA is not null && p.LeadB is not null).ToArray();
        var (noticed, hard) = Measure(book, new Random(20260307), random =>
        {
            var part = parts[random.Next(parts.Length)];
            var lug = book.Lugs[random.Next(book.Lugs.Count)].Name;
            return book with { Parts = book.Parts.Replace(random.Next(2) == 0 ? part with { LeadA = lug } : part with { LeadB = lug }) };
        });
        output.WriteLine(FormattableString.Invariant($"{name}: lead moved, noticed {noticed:P0}, by a contradiction {hard:P0}"));
        Assert.InRange(noticed, 0.2, 1);
    }

    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    [InlineData("tv")]
    public void A_moved_wire_is_noticed_in_a_measured_share_of_cases(string name)
    {
        var book = DemoBooks.Named(name);
        var (noticed, hard) = Measure(book, new Random(20260308), random =>
        {
            var wire = book.Wires[random.Next(book.Wires.Count)];
            return book with { Wires = book.Wires.Replace(wire with { To = book.Lugs[random.Next(book.Lugs.Count)].Name }) };
        });
        output.WriteLine(FormattableString.Invariant($"{name}: wire moved, noticed {noticed:P0}, by a contradiction {hard:P0}"));
        Assert.InRange(noticed, 0.2, 1);
    }

    [Fact]
    public void A_television_is_mapped_fast_enough_to_do_it_after_every_edit()
    {
        _ = MapStage.Run(DemoBooks.Tv, DemoBooks.Handbook);
        // The quickest of five: the machine may be busy with other tests.
        var quickest = Enumerable.Range(0, 5).Min(_ =>
        {
            var watch = System.Diagnostics.Stopwatch.StartNew();
            MapStage.Run(DemoBooks.Tv, DemoBooks.Handbook);
            return watch.Elapsed.TotalMilliseconds;
        });
        output.WriteLine(FormattableString.Invariant($"tv: {quickest:0} ms a run"));
        Assert.InRange(quickest, 0, 2000);
    }

    [Fact]
    public void Whatever_is_moved_or_lost_the_stage_answers()
    {
        var book = DemoBooks.Radio;
        var lugs = Gen.Int[0, book.Lugs.Count + 3].Select(i => i < book.Lugs.Count ? book.Lugs[i].Name : new[] { "", " ", "Z-1", "ch" }[i - book.Lugs.Count]);
        Gen.Select(Gen.Int[0, book.Parts.Count - 1], Gen.Int[0, book.Wires.Count - 1], lugs, lugs, Gen.Int[0, 4]).Sample((part, wire, a, b, what) =>
        {
            var changed = what switch
            {
                0 => book with { Parts = book.Parts.Replace(book.Parts[part] with { LeadA = a, LeadC = b }) },
                1 => book with { Wires = book.Wires.Replace(book.Wires[wire] with { From = a, To = b }) },
                2 => book with { Parts = book.Parts.Remove(book.Parts[part].Id), Wires = book.Wires.Remove(book.Wires[wire].Id) },
                3 => book with { Mounts = Table<Trade.Chassis.Mount>.Empty },
                _ => book with { Lugs = Table<Trade.Chassis.Lug>.Of(book.Lugs.Where(l => l.Name != a)), Facts = book.Facts with { CommonLug = b } },
            };
            var map = MapStage.Run(changed, DemoBooks.Handbook);
            Assert.All(map.Contradictions, c => Assert.False(string.IsNullOrWhiteSpace(c.Sentence)));
            Assert.Equal(map.Nodes.Length, map.Nodes.Select(n => n.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count());
        }, iter: 60);
    }

    private static (double Noticed, double Hard) Measure(Book book, Random random, Func<Random, Book> mutate)
    {
        const int tries = 60;
        var before = MapStage.Run(book, DemoBooks.Handbook).Contradictions.Select(c => (c.Rule, c.Place)).ToHashSet();
        int noticed = 0, hard = 0, counted = 0;
        while (counted < tries)
        {
            var changed = mutate(random);
            var map = MapStage.Run(changed, DemoBooks.Handbook);
            if (SameNodes(book, changed)) continue;          // the lead came back to its own node: no slip
            counted++;
            var fresh = map.Contradictions.Where(c => !before.Contains((c.Rule, c.Place))).ToArray();
            if (fresh.Length > 0) noticed++;
            if (fresh.Any(c => c.Weight == Weight.Contradiction)) hard++;
        }
        return ((double)noticed / tries, (double)hard / tries);
    }

    private static bool SameNodes(Book a, Book b)
    {
        var (x, y) = (MapStage.Run(a with { Parts = Table<Trade.Parts.Part>.Empty }, DemoBooks.Handbook), MapStage.Run(b with { Parts = Table<Trade.Parts.Part>.Empty }, DemoBooks.Handbook));
        return a.Lugs.All(l => x.NodeOf(l.Name)!.Lugs.SequenceEqual(y.NodeOf(l.Name)!.Lugs))
            && a.Parts.All(p => b.Parts.ById(p.Id) is { } q && x.NodeOf(p.LeadA) == x.NodeOf(q.LeadA) && x.NodeOf(p.LeadB) == x.NodeOf(q.LeadB));
    }
}
