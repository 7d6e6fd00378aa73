using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>Source: circuits of the valve handbooks' kind (common practice, no source). They are right, so no rule may call them impossible or doubtful.</summary>
public class GoodCircuitsTests(ITestOutputHelper output)
{
    private MapResult Run(TestBook book)
    {
        var map = MapStage.Run(book.Build(), DemoBooks.Handbook);
        foreach (var f in map.Contradictions) output.WriteLine($"{f.Weight} {f.Rule} {f.Place}: {f.Sentence}");
        return map;
    }

    /// <summary>A power supply: full-wave 5Y3GT with reservoir on B-1 and a heater winding between H-1 and H-2, centre-tapped to the chassis.</summary>
    private static TestBook Supply() => TestBook.New()
        .Mount("P1", "line cord", "P1-1", "P1-2").Strip("A", 4).Strip("B", 4).Strip("H", 2).Strip("G", 4)
        .Wire("P1-1", "A-1").Wire("P1-2", "A-2").Winding("T1P", "T1", "A-1", "A-2", "power primary 230 V")
        .Winding("T1A", "T1", "V9-4", "A-3", "high voltage").Winding("T1B", "T1", "V9-6", "A-3", "high voltage").Wire("A-3", "CH")
        .Winding("T1R", "T1", "V9-2", "V9-8", "filament 5 V 2 A").Winding("T1H", "T1", "H-1", "H-2", "heater 6.3 V 3 A, tapped").Wire("H-2", "CH")
        .Valve("V9", "5Y3GT").Wire("V9-8", "B-1").Electrolytic("C91", 16e-6, 450, "B-1", "CH");

    private static TestBook Heaters(TestBook book, string a, string b) => book.Wire("H-1", a).Wire("H-2", b);

    /// <summary>Direct-coupled cathode follower; both halves of a 12AX7 with parallel heaters.</summary>
    private static TestBook CathodeFollower() => Heaters(Supply().Valve("V1", "12AX7"), "V1-9", "V1-4").Wire("V1-4", "V1-5")
        .Resistor("R1", 1e6, "V1-2", "CH").Resistor("R2", 820, "V1-3", "CH").Resistor("R3", 100e3, "V1-1", "B-1")
        .Wire("V1-1", "V1-7").Wire("V1-6", "B-1").Resistor("R4", 100e3, "V1-8", "CH").Paper("C1", 1e-7, "V1-8", "G-1").Resistor("R5", 1e6, "G-1", "CH");

    /// <summary>Cascode of an E88CC type: the upper cathode stands on the lower plate, the upper grid on a divider.</summary>
    private static TestBook Cascode() => Heaters(Supply().Valve("V1", "6DJ8"), "V1-4", "V1-5")
        .Wire("V1-1", "V1-8").Resistor("R1", 470e3, "V1-2", "CH").Resistor("R2", 150, "V1-3", "CH").Resistor("R3", 10e3, "V1-6", "B-1")
        .Resistor("R4", 220e3, "B-1", "V1-7").Resistor("R5", 100e3, "V1-7", "CH").Paper("C1", 1e-7, "V1-7", "CH").Wire("V1-9", "CH");

    /// <summary>Back bias: the centre tap goes to the chassis through a resistor; the bias electrolytic has its + on the chassis.</summary>
    private static TestBook BackBias() => Heaters(Supply().Cut("A-3", "CH").Valve("V1", "6V6GT"), "V1-2", "V1-7")
        .Resistor("R1", 250, "A-3", "CH").Electrolytic("C1", 25e-6, 25, "CH", "A-3").Resistor("R2", 470e3, "V1-5", "A-3")
        .Wire("V1-8", "CH").Wire("V1-4", "B-1").Winding("T2P", "T2", "V1-3", "B-1", "output primary").Winding("T2S", "T2", "G-1", "CH", "output secondary").Part("SP", "speaker", "G-1", "CH", 3)
        .Valve("V2", "6J5").Wire("H-1", "V2-2").Wire("H-2", "V2-7").Wire("V2-8", "CH").Resistor("R3", 10e6, "V2-5", "CH").Resistor("R4", 100e3, "V2-3", "B-1").Paper("C2", 1e-8, "V2-3", "V1-5");

    /// <summary>Directly heated output triode with a hum control; its plate returns through the filament.</summary>
    private static TestBook DirectlyHeated() => Supply().Mount("V1", "4-pin socket", "V1-1", "V1-2", "V1-3", "V1-4").ValveOnly("V1", "45")
        .Winding("T1F", "T1", "V1-1", "V1-4", "filament 2.5 V 1.5 A").Mount("R1", "control", "R1-1", "R1-2", "R1-3").Wire("R1-1", "V1-1").Wire("R1-3", "V1-4")
        .Part("R1", "control", "R1-1", "R1-3", 20, "R1-2").Resistor("R2", 1500, "R1-2", "CH").Electrolytic("C1", 25e-6, 100, "R1-2", "CH")
        .Resistor("R3", 1e6, "V1-3", "CH").Winding("T2P", "T2", "V1-2", "B-1", "output primary").Winding("T2S", "T2", "G-1", "G-2", "output secondary").Part("SP", "speaker", "G-1", "G-2", 3);

    /// <summary>An AC/DC set with seven-pin valves: 35W4, 50C5, 12AV6; common is a bus, the chassis hangs on a capacitor and a leak.</summary>
    private static TestBook AcDc() => TestBook.New().Mount("P1", "line cord", "P1-1", "P1-2").Mount("S1", "switch", "S1-1", "S1-2").Strip("A", 5)
        .Wire("A-3", "CH", "bond").Wire("P1-1", "V3-4").Wire("P1-2", "S1-1").Part("S1", "switch", "S1-1", "S1-2").Wire("S1-2", "A-1")
        .Valve("V1", "12AV6").Valve("V2", "50C5").Valve("V3", "35W4").Wire("V3-6", "V3-5").Part("LM1", "lamp", "V3-4", "V3-6", 42)
        .Wire("V3-3", "V2-4").Wire("V2-3", "V1-4").Resistor("R9", 330, "V1-3", "A-1", "330")
        .Wire("V3-7", "A-2").Electrolytic("C1", 40e-6, 150, "A-2", "A-1").Resistor("R1", 1200, "A-2", "A-4").Electrolytic("C2", 20e-6, 150, "A-4", "A-1")
        .Winding("T1P", "T1", "V2-7", "A-2", "output primary").Winding("T1S", "T1", "SP-1", "SP-2", "output secondary").Mount("SP", "speaker", "SP-1", "SP-2").Part("SP", "speaker", "SP-1", "SP-2", 3)
        .Wire("V2-6", "A-4").Resistor("R2", 150, "V2-1", "A-1").Wire("V2-2", "V2-5").Resistor("R3", 470e3, "V2-2", "A-1")
        .Resistor("R4", 220e3, "V1-7", "A-4").Paper("C3", 1e-8, "V1-7", "V2-2").Wire("V1-2", "A-1").Resistor("R5", 10e6, "V1-1", "A-1").Wire("V1-5", "V1-6").Resistor("R6", 470e3, "V1-5", "A-1").Paper("C4", 1e-8, "V1-5", "V1-1")
        .Paper("C5", 1e-7, "A-1", "A-3").Resistor("R7", 470e3, "A-1", "A-3");

    /// <summary>Fixed bias from a reversed diode: its reservoir has + on the chassis.</summary>
    private static TestBook FixedBias() => Heaters(Supply().Valve("V1", "6L6GC"), "V1-2", "V1-7")
        .Winding("T1C", "T1", "G-1", "CH", "bias 50 V").Part("D1", "selenium rectifier", "G-2", "G-1", plus: 'b').Electrolytic("C1", 50e-6, 100, "CH", "G-2")
        .Resistor("R1", 15e3, "G-2", "G-3").Resistor("R2", 47e3, "G-3", "CH").Electrolytic("C2", 50e-6, 100, "CH", "G-3").Resistor("R3", 220e3, "V1-5", "G-3").Wire("V1-8", "CH")
        .Wire("V1-4", "B-1").Winding("T2P", "T2", "V1-3", "B-1", "output primary").Winding("T2S", "T2", "G-4", "CH", "output secondary").Part("SP", "speaker", "G-4", "CH", 8);

    /// <summary>Six-volt heaters in series from 12.6 V, a triode strapped as a diode, an unused half grounded, a screen fed through a divider.</summary>
    private static TestBook Oddments() => Heaters(Supply().Valve("V1", "6SN7GT").Valve("V2", "6SJ7"), "V1-7", "V1-8").Wire("H-1", "V2-2").Wire("H-2", "V2-7")
        .Wire("V1-1", "CH").Wire("V1-2", "CH").Wire("V1-3", "CH").Wire("V1-4", "V1-5").Resistor("R1", 470e3, "V1-4", "CH").Wire("V1-6", "CH").Paper("C1", 1e-9, "V1-5", "V2-8")
        .Resistor("R2", 100e3, "V2-8", "B-1").Resistor("R3", 470e3, "B-1", "V2-6").Resistor("R4", 220e3, "V2-6", "CH").Electrolytic("C2", 4e-6, 450, "V2-6", "CH")
        .Resistor("R5", 1e6, "V2-4", "CH").Wire("V2-3", "V2-5").Resistor("R6", 1000, "V2-5", "CH").Wire("V2-1", "CH");

    public static TheoryData<string> Names { get; } = ["cathode follower", "cascode", "back bias", "directly heated", "ac/dc", "fixed bias", "oddments"];

    private static TestBook Named(string name) => name switch
    {
        "cathode follower" => CathodeFollower(),
        "cascode" => Cascode(),
        "back bias" => BackBias(),
        "directly heated" => DirectlyHeated(),
        "ac/dc" => AcDc(),
        "fixed bias" => FixedBias(),
        "oddments" => Oddments(),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such circuit."),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void A_right_circuit_raises_neither_contradiction_nor_doubt(string name) =>
        Assert.DoesNotContain(Run(Named(name)).Contradictions, c => c.Weight != Weight.Remark);

    [Fact]
    public void Common_of_an_AC_DC_set_is_the_bus_and_its_chassis_is_isolated()
    {
        var map = Run(AcDc());
        Assert.Equal(map.NodeOf("A-1"), map.Common.Node);
        Assert.True(map.IsOnLine(map.Common.Node));
        Assert.False(map.IsOnLine(map.Chassis.Node));
        Assert.Equal(["C5", "R7"], map.Isolations.Select(i => i.Part.Name));
    }

    [Fact]
    public void A_low_leak_from_the_bus_is_a_doubt_and_a_very_low_one_puts_the_chassis_on_the_line()
    {
        var low = Run(AcDc().Change("R7", p => p with { Value = 47e3 }));
        Assert.False(low.IsOnLine(low.Chassis.Node));
        Assert.Contains(low.Contradictions, c => c.Rule == "isolation-too-low" && c.Place == "R7");
        var lowest = Run(AcDc().Change("R7", p => p with { Value = 470 }));
        Assert.True(lowest.IsOnLine(lowest.Chassis.Node));
        Assert.Contains(lowest.Contradictions, c => c.Rule == "chassis-on-line" && c.Weight == Weight.Doubt);
    }

    [Fact]
    public void A_part_from_the_circuit_to_a_foot_is_taken_for_earth()
    {
        var found = Run(AcDc().Change("R3", p => p with { LeadB = "A-3" })).Contradictions;
        Assert.Contains(found, c => c.Rule == "foot-taken-for-earth" && c.Place == "R3");
        Assert.Contains(found, c => c.Rule == "grid-without-return" && c.Place == "V2-2");
    }

    [Fact]
    public void A_wrong_valve_in_a_series_string_takes_another_current()
    {
        var found = Run(AcDc().Change("V1", p => p with { Marked = "6AV6" })).Contradictions;
        Assert.Contains(found, c => c.Rule == "series-heaters-differ" && c.Weight == Weight.Contradiction);
    }

    [Fact]
    public void The_book_s_own_common_stands()
    {
        var map = Run(AcDc().Facts(f => f with { CommonLug = "ch" }));
        Assert.Equal(map.Chassis.Node, map.Common.Node);
    }

    [Fact]
    public void A_three_wire_cord_has_an_earth()
    {
        var map = Run(Supply().Mount("P2", "line cord", "P2-1", "P2-2", "P2-3").Wire("P2-3", "CH"));
        Assert.Equal(map.NodeOf("P2-3"), map.Earth.Node);
        Assert.Equal("chassis", map.Earth.Node!.Name);
        Assert.False(map.IsOnLine(map.Chassis.Node));
    }

    [Fact]
    public void An_empty_book_and_a_book_of_values_only_are_quiet()
    {
        Assert.Empty(MapStage.Run(Trade.Book.Empty("e", "E"), DemoBooks.Handbook).Contradictions);
        var values = Run(TestBook.New().Resistor("R1", 1e3, null, null).Paper("C1", 1e-8, null, null).ValveOnly("V1", "6V6GT"));
        Assert.DoesNotContain(values.Contradictions, c => c.Weight == Weight.Contradiction);
    }
}
