using Lugbook.Trade.Entry;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>Source: bench notes as people write and say them: common practice, no source.</summary>
public class BenchNoteTests
{
    [Theory]
    [InlineData("R20 470k half watt V3-6 B-2")]
    [InlineData("r20, 470K, v3-6, b-2, .5w")]
    [InlineData("R20: 470 k ohms ½W from V3-6 to B-2")]
    [InlineData("V3-6 B-2 470k 1/2 watt R20")]
    [InlineData("R20 = 470k, 1/2W, V3-6/B-2")]
    [InlineData("R20 four seventy k, half a watt, pin 6 of V3 to lug 2 of B")]
    [InlineData("R20 470kΩ 0.5 W between V3-6 and B-2")]
    [InlineData("R20 four hundred and seventy kilohms half-watt V3 pin 6 -> B lug 2")]
    [InlineData("R20 .47 meg 1/2 watt on V3 6 and B 2")]
    [InlineData("the R20 is 470k at half a watt and goes from V3.6 to B 2")]
    [InlineData("R20 470K1/2W V3-6–B-2")]
    public void One_resistor_in_many_words(string line)
    {
        var result = Bench.Read(line);
        Assert.Empty(result.Complaints);
        Assert.Empty(result.Questions);
        Assert.Equal("R20: 470 kΩ, 0.5 W, resistor; leads V3-6 and B-2", Bench.Core(result));
    }

    [Theory]
    [InlineData("C20 .05 600 A-2 A-4")]
    [InlineData("C20 point oh five, six hundred volts, between A-2 and A-4")]
    [InlineData("C20 .05/600 A-2/A-4")]
    [InlineData("C20 .05-600 A-2 to 4")]
    [InlineData("C20 .05 @ 600v A 2 A 4")]
    [InlineData("C20 0,05 uF 600 V.D.C.W. A-2,4")]
    [InlineData("C20 .05 mfd. 600 w.v., tags 2 and 4 of A")]
    [InlineData("C20 .05mfd600v A2 A4")]
    [InlineData("C20 50 nF 600V A2-A4")]
    [InlineData("600v .05 C20 2 4")]
    [InlineData("C20 05 MFD 600 tag 2 strip A to tag 4 strip A")]
    public void One_capacitor_in_many_words(string line)
    {
        var result = Bench.Read(line);
        Assert.Empty(result.Complaints);
        Assert.Equal("C20: 0.05 µF, 600 V, paper; leads A-2 and A-4", Bench.Core(result));
        Assert.Contains(result.Assumed, a => a.StartsWith("paper", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("C20 20 mfd 450v + K1-1 - K1-4")]
    [InlineData("C20 20/450 K1-1+ K1-4-")]
    [InlineData("C20 plus K1-1 minus K1-4 20 450")]
    [InlineData("C20 twenty mike four fifty volts pos K1-1 neg K1-4")]
    [InlineData("C20 20 µF 450 V K1-1 plus, K1-4 minus")]
    [InlineData("C20 +K1-1 K1-4 20mfd/450V electrolytic")]
    public void One_electrolytic_in_many_words(string line)
    {
        var result = Bench.Read(line);
        Assert.Empty(result.Complaints);
        Assert.Equal("C20: 20 µF, 450 V, electrolytic; + K1-1, minus K1-4", Bench.Core(result));
        Assert.Equal("K1", result.Next.Book.Parts.Named("C20")!.Group);
    }

    [Theory]
    [InlineData("R22 47k pin3 V3 pin5 V4", "V3-3", "V4-5")]
    [InlineData("R22 47k lug 2 V3 pin 5", "A-2", "V3-5")]
    [InlineData("R22 47k pins 3 and 5 on V4", "V4-3", "V4-5")]
    [InlineData("R22 47k tag 2 strip B to pin 4 of V1", "B-2", "V1-4")]
    [InlineData("R22 47k A-1, B-2", "A-1", "B-2")]
    [InlineData("R22 47k A-1,2", "A-1", "A-2")]
    [InlineData("R22 A-1 47k 5", "A-1", "A-5")]
    [InlineData("R22 47k v3p6 b.2", "V3-6", "B-2")]
    [InlineData("R22 47k A1-B2", "A-1", "B-2")]
    [InlineData("R22 47k A-1→chassis", "A-1", "CH")]
    public void Lugs_in_many_words(string line, string a, string b)
    {
        var part = Bench.Read(line).Next.Book.Parts.Named("R22")!;
        Assert.Equal((a, b, 47e3), (part.LeadA, part.LeadB, part.Value));
    }

    [Theory]
    [InlineData("forty-seven hundred ohms", 4700), InlineData("four seventy k", 470e3), InlineData("one hundred and fifty ohms", 150), InlineData("one and a half meg", 1.5e6)]
    [InlineData("three quarter meg", 750e3), InlineData("a hundred k", 100e3), InlineData("two point two meg", 2.2e6), InlineData("1½ meg", 1.5e6), InlineData("quarter meg", 250e3)]
    [InlineData("27,000 ohms", 27e3), InlineData("4,7k", 4.7e3), InlineData("M22", 220e3), InlineData("3R3", 3.3), InlineData(".47 meg", 470e3), InlineData("twelve hundred", 1200)]
    public void Spoken_and_written_resistances(string words, double ohms)
    {
        var result = Bench.Read($"R22 {words} A-1 B-2");
        Assert.Empty(result.Complaints);
        Assert.Equal(ohms, result.Next.Book.Parts.Named("R22")!.Value!.Value, ohms * 1e-9);
    }

    [Fact]
    public void The_order_of_the_leads_is_that_of_the_note_and_the_plus_lead_follows()
    {
        var part = Bench.Read("C20 20/25 minus K1-4 plus V4-8").Next.Book.Parts.Named("C20")!;
        Assert.Equal(("K1-4", "V4-8", 'b', "V4-8"), (part.LeadA, part.LeadB, part.PlusLead, part.PlusLug));
    }

    [Fact]
    public void A_plus_between_two_lugs_is_asked_about_because_a_wrong_guess_is_dangerous()
    {
        var result = Bench.Read("C20 8 mfd 450v K1-1 + K1-4");
        var question = Assert.Single(result.Questions);
        Assert.Equal(["K1-4", "K1-1"], question.Alternatives.Select(a => Bench.Read(a.Lines).Next.Book.Parts.Named("C20")!.PlusLug));
        Assert.All(question.Alternatives, a => Assert.Empty(Bench.Read(a.Lines).Questions));
    }

    [Fact]
    public void Colours_give_value_and_tolerance_and_stay_in_the_book()
    {
        var part = Bench.Read("R20 yel-vio-org-slv a-2 v3 5").Next.Book.Parts.Named("R20")!;
        Assert.Equal((47000.0, 0.1, "yellow violet orange silver"), (part.Value, part.Tolerance!.Value.Plus, part.Code));
        Assert.Equal("the colours say 47 kΩ, the line says 22 kΩ", Assert.Single(Bench.Read("R20 22k yellow violet orange").Complaints).Problem);
    }

    [Fact]
    public void Same_as_copies_kind_value_and_rating_but_not_the_leads()
    {
        var part = Bench.Read("R20 same as R2, V3-4 A-1").Next.Book.Parts.Named("R20")!;
        Assert.Equal((22000.0, 0.5, "V3-4", "A-1"), (part.Value, part.RatedWatts, part.LeadA, part.LeadB));
        Assert.Equal(part.Value, Bench.Read("R20 22k half watt, same as R2").Next.Book.Parts.Named("R20")!.Value);
        Assert.Equal(("R2 is 22 kΩ, not 47 kΩ", 17), (Assert.Single(Bench.Read("R20 47k, same as R2").Complaints).Problem, Bench.Read("R20 47k, same as R2").Complaints[0].At));
    }

    [Fact]
    public void M_is_asked_about_and_each_answer_is_certain()
    {
        var result = Bench.Read("R20 25M A-1 A-2");
        var question = Assert.Single(result.Questions);
        var values = question.Alternatives.Select(a => Bench.Read(a.Lines)).ToArray();
        Assert.All(values, v => Assert.Empty(v.Questions));
        Assert.Equal([25e3, 25e6], values.Select(v => v.Next.Book.Parts.Named("R20")!.Value!.Value));
        Assert.Equal(25e3, result.Next.Book.Parts.Named("R20")!.Value);   // the first answer is what would be entered
    }

    [Theory]
    [InlineData("C20 .02 400 A-1 A-2", null, "paper")]
    [InlineData("C20 .02 400 A-1 A-2", 1950, "paper")]
    [InlineData("C20 .02 400 A-1 A-2", 1963, "film")]
    [InlineData("C20 100 mmf A-1 A-2", 1938, "mica")]
    [InlineData("C20 100 mmf A-1 A-2", 1956, "ceramic")]
    [InlineData("C20 8 mfd 450 A-1 A-2", 1938, "electrolytic")]
    [InlineData("C20 8 450 A-1 A-2", 1938, "electrolytic")]
    [InlineData("C20 .01 250vac X2 A-1 A-2", 1950, "film")]
    public void The_kind_of_a_capacitor_follows_from_value_and_year_and_is_said(string line, int? year, string kind)
    {
        var context = Bench.Start with { Book = Bench.Start.Book with { Facts = Bench.Start.Book.Facts with { Year = year } } };
        var result = Bench.Read(line, context);
        Assert.Equal(kind, result.Next.Book.Parts.Named("C20")!.KindAsWritten);
        Assert.Contains(result.Assumed, a => a.StartsWith(kind, StringComparison.Ordinal));
        Assert.Contains($"assumed: {kind}", result.Understood, StringComparison.Ordinal);
    }

    [Fact]
    public void Small_capacitors_ask_for_their_kind_and_the_answer_settles_it()
    {
        var question = Assert.Single(Bench.Read("C20 250 mmf A-1 A-2").Questions);
        Assert.Equal([PartKind.Mica, PartKind.Ceramic], question.Alternatives.Select(a => Bench.Read(a.Lines).Next.Book.Parts.Named("C20")!.Kind));
        Assert.All(question.Alternatives, a => Assert.Empty(Bench.Read(a.Lines).Questions));
    }

    [Fact]
    public void A_can_with_three_sections_is_three_parts_on_one_common_lug()
    {
        var book = Bench.Read("C30 40-20-20 mfd 450v K1-1 K1-2 K1-3 minus K1-4").Next.Book;
        Assert.Equal(["C30A", "C30B", "C30C"], book.Parts.Where(p => p.Name.StartsWith("C30", StringComparison.Ordinal)).Select(p => p.Name));
        Assert.Equal([40e-6, 20e-6, 20e-6], book.Parts.Where(p => p.Group == "K1" && p.Name[..2] == "C3").Select(p => Math.Round(p.Value!.Value, 9)));
        Assert.All(book.Parts.Where(p => p.Name.StartsWith("C30", StringComparison.Ordinal)), p => Assert.Equal("K1-4", p.MinusLug));
    }

    [Theory]
    [InlineData("R20 47k A-1 A-1", 13, "two leads on A-1")]
    [InlineData("R20 10k V3-9 A-1", 8, "V3 (octal socket) has lugs 1 to 8; there is no V3-9")]
    [InlineData("R20 .02 mfd A-1 A-2", 4, "a capacitance is no value for R20, a resistor")]
    [InlineData("R20 47k A-1 wipper B-1", 12, "'wipper' is no word of a bench note; is it 'wiper'?")]
    [InlineData("R20 47k A-1 A-2 zq9$", 16, "'zq9$' cannot be read")]
    [InlineData("R20 10k 33k A-1 A-2", 8, "a second value")]
    [InlineData("C20 .05 600v 400v", 13, "a second voltage")]
    [InlineData("C7 .05", 3, "C7 is in the book with the value 0.02 µF")]
    [InlineData("C20 .05 600 to ground", 15, "'ground' may be the chassis, the common negative or earth: they are different things")]
    [InlineData("moved C99 a V3-5", 6, "there is no C99 in the book to change")]
    [InlineData("V3 6V6GT A-1 A-2", 9, "a valve has no leads: V3 plugs into the socket V3")]
    public void A_line_that_cannot_be_right_is_refused_at_its_place(string line, int at, string problem)
    {
        var result = Bench.Read(line);
        var complaint = result.Complaints[0];
        Assert.Equal((problem, line), (complaint.Problem, complaint.Text));
        Assert.InRange(complaint.At, at - 1, at + 1);
        Assert.Empty(result.Edits);
        Assert.Same(Bench.Start, result.Next);
    }

    [Fact]
    public void The_book_that_was_read_against_stays_as_it_was()
    {
        var before = Bench.Start.Book;
        var result = Bench.Read("R20 47k A-1 X9-2");
        Assert.Null(before.Parts.Named("R20"));
        Assert.Equal(result.Next.Book, result.Apply(before));
        Assert.NotNull(result.Apply(before).Lugs.Named("X9-2"));
    }

    [Fact]
    public void New_mounts_and_lugs_are_proposed_and_said_never_slipped_in()
    {
        var result = Bench.Read("R20 10k V9-3 A-1");
        Assert.Contains(result.Edits, e => e is AddMount { Implied: true, Mount.Name: "V9" });
        Assert.Contains("new: mount V9 (valve socket), lug V9-3", result.Understood, StringComparison.Ordinal);
        var noval = result.Questions[0].Alternatives.Single(a => a.Say == "noval");
        var book = EntryBatch.Read(noval.Lines, Bench.Start).AllOrNothing;
        Assert.Equal(9, book.Lugs.Count(l => l.Mount == "V9"));
        Assert.Equal("V9-3", book.Parts.Named("R20")!.LeadA);
    }
}
