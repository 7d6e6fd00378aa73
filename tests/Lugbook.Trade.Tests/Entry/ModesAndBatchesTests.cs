using Lugbook.Trade.Entry;
using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>Source: the bench language of docs/quick-entry.md; counting of references: common practice, no source.</summary>
public class ModesAndBatchesTests
{
    private static EntryContext Enter(EntryContext context, params string[] lines)
    {
        foreach (var line in lines)
        {
            var result = Bench.Read(line, context);
            Assert.True(result.IsReady, $"{line}: {string.Join(' ', result.Complaints)}{string.Join(' ', result.Questions)}");
            Assert.Equal(result.Next.Book, result.Apply(context.Book));
            context = result.Next;
        }
        return context;
    }

    [Fact]
    public void All_leads_on_one_lug_puts_one_lead_of_each_line_there()
    {
        var after = Enter(Bench.Start, "at V3-5", "C17 .02 400", "R9 470k to V4-8", "wire red to K1-2", "C18 20/25 plus");
        Assert.Equal((EntryMode.AllOnLug, "V3-5"), (after.Mode, after.LastLug));
        Assert.Equal(("V3-5", null), (after.Book.Parts.Named("C17")!.LeadA, after.Book.Parts.Named("C17")!.LeadB));
        Assert.Equal(("V3-5", "V4-8"), (after.Book.Parts.Named("R9")!.LeadA, after.Book.Parts.Named("R9")!.LeadB));
        Assert.Equal("V3-5", after.Book.Parts.Named("C18")!.PlusLug);
        Assert.Equal(("V3-5", "K1-2", "red"), after.Book.Wires.Select(w => (w.From, w.To, w.Colour!)).Last());
    }

    [Fact]
    public void A_part_met_at_a_second_lug_gets_its_second_lead_and_a_wire_met_again_is_the_same_wire()
    {
        var after = Enter(Bench.Start, "at V3-5", "C17 .02 400", "wire red to K1-2", "at V4-5", "C17", "at K1-2: wire red to V3-5", "done");
        Assert.Equal(("V3-5", "V4-5"), (after.Book.Parts.Named("C17")!.LeadA, after.Book.Parts.Named("C17")!.LeadB));
        Assert.Single(after.Book.Wires, w => w.From == "V3-5");
        Assert.Equal(EntryMode.Normal, after.Mode);
        Assert.NotEmpty(Bench.Read("C17", after with { Mode = EntryMode.AllOnLug, LastLug = "V1-1" }).Complaints);
    }

    [Fact]
    public void The_last_mount_is_kept_and_bare_numbers_are_its_lugs()
    {
        var after = Enter(Bench.Start, "R20 10k B-1 B-4", ".05 600 paper 3 5");
        var part = after.Book.Parts[^1];
        Assert.Equal(("B-3", "B-5", 600.0), (part.LeadA, part.LeadB, part.RatedVolts));
        Assert.Equal("B", after.LastMount);
    }

    [Fact]
    public void References_are_offered_from_the_last_one_on()
    {
        var book = Enter(Bench.Start, "R101 1k A-1 A-2", "R102 1k A-1 A-2").Book;
        Assert.Equal("R3", QuickEntry.NextReference(book, "R"));            // R2 is the lowest in use
        Assert.Equal("R103", References.Next(book, "r", "R102"));
        Assert.Equal("C1", QuickEntry.NextReference(Book.Empty("b", "B"), "c"));
        Assert.Equal("C12B", References.NextSection(Enter(Bench.Start, "C12A 50 mfd 150v + K1-1 K1-4").Book, "C12"));
        Assert.Equal("R10", Bench.Read("R9 22k").NextReference);
    }

    [Fact]
    public void Leads_move_by_letter_by_lug_or_by_mount()
    {
        Assert.Equal("V3-5", Enter(Bench.Start, "moved C7 a V3-5").Book.Parts.Named("C7")!.LeadA);
        Assert.Equal("A-1", Enter(Bench.Start, "moved C7 from V4-5 to A-1").Book.Parts.Named("C7")!.LeadB);
        Assert.Equal("V3-2", Enter(Bench.Start, "moved C7 to V3-2").Book.Parts.Named("C7")!.LeadA);
        Assert.Contains("which lead of C7", Assert.Single(Bench.Read("moved C7 to A-1").Complaints).Problem, StringComparison.Ordinal);
        Assert.Equal("A-2", Enter(Bench.Start, "moved C9 minus A-2").Book.Parts.Named("C9")!.MinusLug);
    }

    [Fact]
    public void Values_change_only_when_the_note_says_so()
    {
        Assert.NotEmpty(Bench.Read("C7 .05").Complaints);
        var part = Enter(Bench.Start, "C7 value .05").Book.Parts.Named("C7")!;
        Assert.Equal((0.05e-6, "V3-6", 400.0), (Math.Round(part.Value!.Value, 12), part.LeadA, part.RatedVolts));
        Assert.Equal(600, Enter(Bench.Start, "change C7 600v").Book.Parts.Named("C7")!.RatedVolts);
    }

    [Fact]
    public void What_is_open_can_be_filled_in_later()
    {
        var first = Bench.Read("C5 ? V1-5");
        Assert.Equal([PartField.Leads, PartField.Value, PartField.RatedVolts, PartField.Kind], first.Open.Select(o => o.Field));
        var after = Bench.Read("C5 .01 600 A-2", first.Next);
        Assert.Empty(after.Open);
        Assert.Equal(("V1-5", "A-2", "paper"), (after.Next.Book.Parts.Named("C5")!.LeadA, after.Next.Book.Parts.Named("C5")!.LeadB, after.Next.Book.Parts.Named("C5")!.KindAsWritten));
    }

    [Fact]
    public void Parts_leave_are_renamed_and_turned()
    {
        Assert.Null(Enter(Bench.Start, "remove C7").Book.Parts.Named("C7"));
        Assert.Equal("V3-6", Enter(Bench.Start, "rename C7 to C70").Book.Parts.Named("C70")!.LeadA);
        Assert.Equal("V4-5", Enter(Bench.Start, "swap C7").Book.Parts.Named("C7")!.LeadA);
        Assert.NotEmpty(Bench.Read("rename C7 R2").Complaints);
    }

    [Fact]
    public void A_batch_enters_all_or_nothing_or_the_good_ones()
    {
        var batch = EntryBatch.Read("R20 47k A-1 A-2\r\n\nR21 47k A-1 A-1\nC20 .05 600 V3-6 V4-5\nR22 zq9$", Bench.Start);
        Assert.Equal(["line 3", "line 5"], batch.Complaints.Select(c => c.Place));
        Assert.False(batch.IsReady);
        Assert.Same(Bench.Start.Book, batch.AllOrNothing);
        Assert.Equal(Bench.Start.Book.Parts.Count + 2, batch.GoodOnes.Parts.Count);
        var good = EntryBatch.Read("R20 47k A-1 A-2\n10k 3 5\n", Bench.Start);
        Assert.Same(good.GoodOnes, good.AllOrNothing);
        Assert.Equal("R21", good.AllOrNothing.Parts[^1].Name);
    }

    [Theory]
    [InlineData("C7\t.02\t400\nC8\t.05\t600", true)]
    [InlineData("ref;value;lead_a\nC7;.02;V3-6", true)]
    [InlineData("C7\t.02\t400", true)]
    [InlineData("C7 .02 400 V3-6 V4-5", false)]
    [InlineData("C7: 0.02 µF, 400 V, paper; leads V3-6 and V4-5; open: x", false)]
    [InlineData("C7 .02; 400; V3-6\nR2 22k", false)]
    [InlineData("", false)]
    public void Spreadsheet_rows_are_told_from_notes(string text, bool table) => Assert.Equal(table, PastedRows.LooksLikeTable(text));

    [Fact]
    public void Unfinished_parts_are_listed_by_what_matters_most()
    {
        var book = Enter(Bench.Start, "C5 ? V1-5", "R10 22k", "R9 470k 1W A-1 B-1", "C6 20 mfd 450 A-1 CH").Book;
        var unfinished = Unfinished.Of(book);
        Assert.Equal(["C5", "R10", "C6"], unfinished.Parts.Select(p => p.Part.Name));
        Assert.Equal((2, 1, book.Parts.Count - 3, book.Parts.Count), (unfinished.Lacking(PartField.Leads), unfinished.Lacking(PartField.PlusLead), unfinished.Finished, unfinished.Total));
        Assert.Equal(["R2", "R10", "R10A"], new[] { "R10A", "R10", "R2" }.Order(ReferenceOrder.Instance));
    }

    [Fact]
    public void A_mount_comes_with_its_lugs()
    {
        var after = Enter(Bench.Start, "mount D strip 5 feet 1 and 5 at 120 45", "mount V9 noval", "mount E1 earth lug");
        Assert.Equal(["D-1", "D-5"], after.Book.Lugs.Where(l => l.Function == "mounting foot" && l.Mount == "D").Select(l => l.Name));
        Assert.Equal(120, after.Book.Lugs.Named("D-3")!.X);
        Assert.Equal(9, after.Book.Lugs.Count(l => l.Mount == "V9"));
        Assert.NotNull(after.Book.Lugs.Named("E1"));
        Assert.NotEmpty(Bench.Read("mount V3 octal").Complaints);
        Assert.NotEmpty(Bench.Read("mount Q strip 12").Complaints);
    }

    [Fact]
    public void The_handbook_says_which_socket_a_valve_needs_and_which_pin_is_its_plate()
    {
        // Source: 6V6, seven-pin octal, from memory of handbooks.
        var (pins, _) = Pinouts.Read("2=h;3=p;4=g2;5=g1;7=h;8=k,bp", "beam", "test");
        var handbook = new ValveHandbook([new("6V6", [], "beam", "octal", pins, 6.3, 0.45, "test", "memory")]);
        var after = Enter(Bench.Start with { Handbook = handbook }, "V8 6V6", "R20 10k plate of V8 to V8 grid");
        Assert.Equal(8, after.Book.Lugs.Count(l => l.Mount == "V8"));
        Assert.Equal(("V8-3", "V8-5"), (after.Book.Parts.Named("R20")!.LeadA, after.Book.Parts.Named("R20")!.LeadB));
    }
}
