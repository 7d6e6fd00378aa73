using System.Text.Json;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Fit;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Trade;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Fit;

/// <summary>Source: the job itself: what comes off and goes on must be exactly what the map and the choices say. Splice tails of a sixteenth of an inch: common practice, no source.</summary>
public class FitTests
{
    private static (MapResult Map, ChooseResult Choices, FitResult Sheet) Run(Book book)
    {
        var map = MapStage.Run(book, DemoBooks.Handbook);
        var choices = ChooseStage.Run(map, Shop.Policy);
        return (map, choices, FitStage.Run(map, choices));
    }

    [Fact]
    public void Working_through_the_sheet_step_by_step_gives_exactly_the_target()
    {
        RandomChassis.Full.HasNoFault(Replay, 300);
        foreach (var book in (Book[])[DemoBooks.Radio, DemoBooks.Amp, DemoBooks.Tv]) Assert.Equal("", Replay(book));
    }

    private static string Replay(Book book)
    {
        var (_, choices, sheet) = Run(book);
        var bench = book.Parts.SelectMany(p => p.Leads.Select(l => (Part: p.Id, New: false, l.Letter, l.Lug))).ToList();
        foreach (var step in sheet.Steps)
        {
            foreach (var off in step.Off)
                if (!bench.Remove((step.PartId, false, off.Letter, off.Lug))) return $"step {step.Number} takes off a lead that is not there";
            if (!step.On.Select(l => (l.Letter, l.Lug)).Order().SequenceEqual(step.Off.Select(l => (l.Letter, l.Lug)).Order())) return $"step {step.Number} leaves its position open";
            foreach (var on in step.On) bench.Add((step.PartId, true, on.Letter, on.Lug));
        }
        var goes = choices.Choices.Where(c => c.Decision == Decision.Goes && c.Lugs.Length >= 2).Select(c => c.PartId).ToHashSet();
        var target = book.Parts.SelectMany(p => p.Leads.Select(l => (Part: p.Id, New: goes.Contains(p.Id), l.Letter, l.Lug)));
        return bench.Order().SequenceEqual(target.Order()) ? "" : "the bench is not as it should be";
    }

    [Fact]
    public void Every_lead_and_wire_end_on_a_lug_is_accounted_for_exactly_once() =>
        RandomChassis.Full.HasNoFault(book =>
        {
            var (_, choices, sheet) = Run(book);
            if (sheet.Lugs.Select(l => l.Lug).Distinct(StringComparer.OrdinalIgnoreCase).Count() != sheet.Lugs.Length) return "a lug comes twice";
            foreach (var lug in sheet.Lugs)
            {
                var there = book.Parts.SelectMany(p => p.Leads.Where(l => l.Lug == lug.Lug).Select(l => (p.Id, l.Letter))).Order();
                if (!there.SequenceEqual(lug.Off.Concat(lug.Stay).Select(l => (l.PartId, l.Letter)).Order())) return $"{lug.Lug}: leads are missing or doubled";
                var ends = book.Wires.Sum(w => (w.From == lug.Lug ? 1 : 0) + (w.To == lug.Lug ? 1 : 0));
                if (ends != lug.Wires.Length) return $"{lug.Lug}: wire ends are missing or doubled";
                var clear = lug.Stay.IsEmpty && !lug.Wires.Any(w => !w.Bond);
                if (clear != (lug.Verdict == LugVerdict.ClearToBareMetal)) return $"{lug.Lug}: wrong verdict";
            }
            var goes = choices.Choices.Where(c => c.Decision == Decision.Goes && c.Lugs.Length >= 2).ToArray();
            if (sheet.Lugs.Sum(l => l.Off.Length) != goes.Sum(c => c.Lugs.Length)) return "leads come off elsewhere than on the sheet";
            return sheet.Steps.Length == goes.Length && sheet.Steps.Select(s => s.PartId).Distinct().Count() == goes.Length ? "" : "steps are missing or doubled";
        }, 300);

    [Fact]
    public void A_lug_with_a_wire_or_a_part_that_stays_is_spliced_and_a_bare_one_cleared()
    {
        var lugs = Run(DemoBooks.Amp).Sheet.Lugs.ToDictionary(l => l.Lug);
        Assert.Equal(LugVerdict.SpliceOntoShortTails, lugs["A-5"].Verdict);           // line cord W2 and the primary stay
        Assert.Equal(LugVerdict.ClearToBareMetal, lugs["A-3"].Verdict);               // C1 alone, on a foot bonded to the chassis
        Assert.Contains("1.6 mm", lugs["A-5"].Sentence, StringComparison.Ordinal);
        Assert.Contains("bare metal", lugs["A-3"].Sentence, StringComparison.Ordinal);
        // R2 and R12 are measured first and stay for now, so their lugs are spliced.
        Assert.Equal(LugVerdict.SpliceOntoShortTails, lugs["V1-5"].Verdict);
    }

    [Fact]
    public void What_protects_comes_first_and_tone_late()
    {
        var order = Run(DemoBooks.Amp).Sheet.Steps.Select(s => s.Position).ToList();
        Assert.Equal(["C6", "C7"], order.Take(2).Order(StringComparer.Ordinal));
        Assert.True(order.IndexOf("C10A") < order.IndexOf("C3"));
        Assert.True(order.IndexOf("C3") < order.IndexOf("C9") || order.IndexOf("C4") < order.IndexOf("C5"));
        Assert.True(order.IndexOf("C2") < order.IndexOf("C5"));
        Assert.Equal(["C10A", "C10B", "C10C", "C10D"], order.Skip(order.IndexOf("C10A")).Take(4));
        // C1 stands on the line, but whether the smaller value may take its place is still asked: held back, it comes last.
        Assert.Equal("C1", order[^1]);
    }

    [Fact]
    public void Polarity_and_twins_are_named_at_their_step()
    {
        var steps = Run(DemoBooks.Amp).Sheet.Steps.ToDictionary(s => s.Position);
        Assert.Contains("Plus to C-5, minus to C-3", steps["C8"].Polarity, StringComparison.Ordinal);
        Assert.Contains(steps["C8"].On, l => l.Lug == "C-5" && l.How.StartsWith("Plus lead.", StringComparison.Ordinal));
        Assert.Contains("C7", steps["C6"].Alike, StringComparison.Ordinal);
        Assert.Null(steps["C9"].Alike);
        Assert.Contains(steps["C8"].Cautions, c => c.Id == "S-polarity");
        Assert.Contains(steps["C8"].Cautions, c => c.Id == "S-discharge");
        Assert.DoesNotContain(steps["C9"].Cautions, c => c.Id == "S-polarity");
    }

    [Fact]
    public void A_position_without_a_part_is_not_to_be_opened()
    {
        var amp = DemoBooks.Amp;
        var book = amp with { Parts = amp.Parts.Replace(amp.Parts.Named("C5")! with { RatedVolts = 20e3 }) };
        Assert.Contains("do not open", Run(book).Sheet.Steps.Single(s => s.Position == "C5").Open, StringComparison.Ordinal);
    }

    /// <summary>Source: plan of the radio, C2 from A-1 (12, 38) to A-5 (12, 76).</summary>
    [Fact]
    public void The_span_is_the_distance_of_the_lugs_in_plan() =>
        Assert.Equal(38, Run(DemoBooks.Radio).Sheet.Steps.Single(s => s.Position == "C2").SpanMm);

    [Fact]
    public void Done_is_counted_and_the_next_step_is_the_first_that_is_not()
    {
        var plain = Run(DemoBooks.Radio).Sheet;
        Assert.Equal((0, 1), (plain.DoneCount, plain.Next));
        var done = Run(DemoBooks.Radio with { Work = Table<PositionWork>.Of([new() { Name = plain.Steps[0].Position, Done = true }, new() { Name = plain.Steps[2].Position, Done = true }]) }).Sheet;
        Assert.Equal((2, 2), (done.DoneCount, done.Next));
    }

    [Fact]
    public void Parts_without_lugs_are_named_and_the_sheet_stays_empty()
    {
        var book = Book.Empty("values", "values only") with { Parts = Table<Lugbook.Trade.Parts.Part>.Of([Shop.Part("C1", "paper", .02e-6, 400, 20)]) };
        var sheet = Run(book).Sheet;
        Assert.Empty(sheet.Steps);
        Assert.Equal("C1", sheet.NotOnSheet.Single().Position);
    }

    [Fact]
    public void Heat_sensitive_neighbours_are_named()
    {
        var lugs = Run(DemoBooks.Tv).Sheet.Lugs;
        Assert.Contains(lugs.Single(l => l.Lug == "AH-3").HeatSensitive, h => h.StartsWith("CR2B", StringComparison.Ordinal));
        Assert.Contains(Run(DemoBooks.Tv).Sheet.Steps.Single(s => s.Position == "C53").Cautions, c => c.Id == "S-selenium");
    }

    [Fact]
    public void The_sheet_is_plain_json() => Assert.NotEmpty(JsonSerializer.Serialize(Run(DemoBooks.Tv).Sheet));
}
