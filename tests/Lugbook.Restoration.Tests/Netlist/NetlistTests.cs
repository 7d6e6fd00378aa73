using Lugbook.Circuit.Elements;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;

namespace Lugbook.Restoration.Tests.Netlist;

/// <summary>A book becomes a network, and what is not known is named.</summary>
public class NetlistTests
{
    private static Book Good(Func<Book, Book>? change = null)
    {
        var book = TestBook.GoodSet().Facts(f => f with { LineVolts = 117, LineHertz = 60 }).Build();
        book = book with
        {
            Parts = Table<Part>.Of(book.Parts.Select(p => p.Name switch
            {
                "T1P" => p with { Value = 6, Marked = "power primary 117 V" },
                "T1A" or "T1B" => p with { Value = 120, Marked = "high voltage 250 V, half" },
                "T1H" => p with { Value = 0.1 },
                "L1" => p with { Value = 300, Marked = "filter choke 10 henry" },
                "T2P" => p with { Value = 250 },
                _ => p,
            })),
        };
        return change?.Invoke(book) ?? book;
    }

    /// <summary>Source: any textbook: the halves of a centre-tapped winding feed the rectifier's plates in turn, so both plates carry the same mean current.</summary>
    [Fact]
    public void Both_plates_of_a_full_wave_rectifier_carry_half_the_current()
    {
        var solved = Solved.Of(Good());
        Assert.Null(solved.Reason);
        Assert.Equal(2, solved.Rectifiers.Length);
        Assert.InRange(solved.Rectifiers[0].Amperes / solved.Rectifiers[1].Amperes, 0.97, 1.03);
        Assert.InRange(solved.Volts("K1-1"), 250, 250 * Math.Sqrt(2));
    }

    /// <summary>Source: Kirchhoff: the two halves of a supply differ by what the choke drops.</summary>
    [Fact]
    public void The_choke_drops_the_current_of_all_stages()
    {
        var solved = Solved.Of(Good());
        var amperes = solved.Rectifiers.Sum(r => r.Amperes);
        Assert.Equal(amperes * 300, solved.Volts("K1-1") - solved.Volts("K1-2"), 0.02 * amperes * 300);
    }

    /// <summary>Source: law of circuits, none needed: what the tables are called and how they are sorted changes no voltage.</summary>
    [Fact]
    public void The_order_of_the_tables_changes_no_voltage()
    {
        var book = Good();
        var turned = book with
        {
            Parts = Table<Part>.Of(book.Parts.Reverse().Select(p => p with { Id = 0 })), Lugs = Table<Trade.Chassis.Lug>.Of(book.Lugs.Reverse().Select(l => l with { Id = 0 })),
            Wires = Table<Trade.Chassis.Wire>.Of(book.Wires.Reverse().Select(w => w with { Id = 0 })),
        };
        var (a, b) = (Solved.Of(book), Solved.Of(turned));
        foreach (var lug in book.Lugs.Select(l => l.Name)) Assert.Equal(a.Volts(lug), b.Volts(lug), 1e-3 * Math.Max(1, Math.Abs(a.Volts(lug))));
    }

    /// <summary>Source: a resistor has no polarity.</summary>
    [Fact]
    public void Exchanging_the_leads_of_resistors_changes_no_voltage()
    {
        var book = Good();
        var turned = book with { Parts = Table<Part>.Of(book.Parts.Select(p => p.Kind == PartKind.Resistor ? p with { LeadA = p.LeadB, LeadB = p.LeadA } : p)) };
        var (a, b) = (Solved.Of(book), Solved.Of(turned));
        foreach (var lug in (string[])["V1-3", "V1-8", "V2-8", "K1-1"]) Assert.Equal(a.Volts(lug), b.Volts(lug), 0.01);
    }

    [Fact]
    public void A_type_that_nobody_knows_is_named_and_stood_in_for()
    {
        var net = Solved.Netlist(Good(b => b with { Parts = Table<Part>.Of(b.Parts.Select(p => p.Name == "V1" ? p with { Marked = "99XX9" } : p)) }));
        Assert.Contains(net.Unknowns, u => u.Place == "V1");
        Assert.DoesNotContain(net.Network!.Elements, e => e is Triode { Name: "V1" });
    }

    [Fact]
    public void Without_a_line_voltage_one_is_taken_and_said()
    {
        var net = Solved.Netlist(Good(b => b with { Facts = b.Facts with { LineVolts = null, LineHertz = null } }));
        Assert.Contains(net.Unknowns, u => u.Place == "line" && u.Sentence.Contains("117", StringComparison.Ordinal));
    }

    [Fact]
    public void Values_alone_make_no_network_and_say_why()
    {
        var book = Book.Empty("x", "X") with { Parts = Table<Part>.Of([new() { Name = "R1", KindAsWritten = "resistor", Value = 1000 }]) };
        var solved = Solved.Of(book);
        Assert.Null(solved.Direct);
        Assert.Contains("common", solved.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_without_a_value_is_named_and_given_a_range()
    {
        var net = Solved.Netlist(Good(b => b with { Parts = Table<Part>.Of(b.Parts.Select(p => p.Name == "R3" ? p with { Value = null } : p)) }));
        Assert.Contains(net.Unknowns, u => u.Place == "R3");
        Assert.Contains(net.Spreads, s => s is { Element: "R3", Cause: Lugbook.Restoration.Netlist.SpreadCause.Unknown });
    }

    [Fact]
    public void A_declared_voltage_holds_its_node()
    {
        var solved = Solved.Of(Good(b => b with { Declared = Table<DeclaredVoltage>.Of([new() { Name = "V1-5", Volts = -4 }]) }));
        Assert.Equal(-4, solved.Volts("V1-5"), 9);
    }

    /// <summary>Source: the television's own chart: 487 V at the boost end, and 74.5 mA drawn for it at the damper's plate (an independent solution of the invented set).</summary>
    [Fact]
    public void A_boosted_supply_stands_at_its_voltage_and_draws_its_current_from_the_dampers_plate()
    {
        var solved = Solved.Demo("tv");
        Assert.Equal(487, solved.Volts("T10-5"), 0.5);
        var boost = (Battery)solved.Direct!.Elements.Single(e => e.Name == "T10-5 boost");
        var amperes = (boost.Volts - (solved.Volts("T10-5") - solved.Volts("V14-5"))) / boost.Ohms;
        Assert.InRange(amperes, 0.067, 0.082);
    }

    /// <summary>Source: the sets' own charts, solved independently: heaters in series share the line.</summary>
    [Theory]
    [InlineData("radio")]
    [InlineData("tv")]
    public void Heaters_in_a_string_stand_where_the_chart_has_them(string name)
    {
        var solved = Solved.Demo(name);
        var lines = DemoBooks.Named(name).SheetReadings.Where(r => r is { IsAc: true, Volts: > 1 }).ToArray();
        Assert.True(lines.Length >= 8);
        foreach (var line in lines) Assert.InRange(solved.Rms(line.Name) / line.Volts!.Value, 0.93, 1.07);
    }
}
