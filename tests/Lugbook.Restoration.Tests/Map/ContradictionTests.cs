using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>Source: common practice, no source. Each slip is seeded into a small set that has none; the set itself is each rule's negative.</summary>
public class ContradictionTests(ITestOutputHelper output)
{
    private Contradiction[] Find(TestBook book)
    {
        var found = MapStage.Run(book.Build(), DemoBooks.Handbook).Contradictions;
        foreach (var f in found) output.WriteLine($"{f.Weight} {f.Rule} {f.Place}: {f.Sentence} {f.Remedy}");
        return [.. found];
    }

    private static TestBook Good => TestBook.GoodSet();

    [Fact]
    public void The_good_set_has_nothing_but_remarks() => Assert.DoesNotContain(Find(Good), c => c.Weight != Weight.Remark);

    /// <summary>Slip, rule that must say so, its place, its weight.</summary>
    public static TheoryData<string, string, string, Weight> Slips { get; } = new()
    {
        { "lead on no lug", "lead-on-no-lug", "R5", Weight.Contradiction },
        { "one lead", "one-lead-part", "R5", Weight.Contradiction },
        { "no wiper", "control-without-wiper", "R9", Weight.Contradiction },
        { "two parts", "two-parts-one-name", "R1", Weight.Contradiction },
        { "two mounts", "two-mounts-one-name", "A", Weight.Contradiction },
        { "two lugs", "two-lugs-one-name", "A-5", Weight.Contradiction },
        { "entered twice", "part-entered-twice", "R12", Weight.Doubt },
        { "shorted", "part-shorted", "R4", Weight.Contradiction },
        { "shorted by wire", "part-shorted", "R3", Weight.Contradiction },
        { "bridged switch", "bridged", "S1", Weight.Doubt },
        { "floating", "floating-node", "B-4", Weight.Contradiction },
        { "wire to unknown", "wire-to-unknown-lug", "W17", Weight.Contradiction },
        { "wire to itself", "wire-to-itself", "W17", Weight.Contradiction },
        { "wire to nothing", "wire-to-nothing", "B-4", Weight.Doubt },
        { "no grid leak", "grid-without-return", "V2-5", Weight.Contradiction },
        { "no cathode resistor", "cathode-without-return", "V1-8", Weight.Contradiction },
        { "no plate load", "plate-without-supply", "V1-3", Weight.Contradiction },
        { "no screen wire", "screen-without-supply", "V2-4", Weight.Contradiction },
        { "grid on supply", "grid-on-supply", "V2-5", Weight.Contradiction },
        { "heater on plate", "heater-on-plate", "V1-2", Weight.Contradiction },
        { "heater on grid", "heater-on-grid", "V1-2", Weight.Contradiction },
        { "heater open", "heater-without-supply", "V1", Weight.Contradiction },
        { "heater chain cut", "heater-without-supply", "V2", Weight.Contradiction },
        { "heater shorted", "heater-shorted", "V1", Weight.Contradiction },
        { "heater volts", "parallel-heaters-differ", "V1", Weight.Contradiction },
        { "no valve", "valve-missing", "V1", Weight.Contradiction },
        { "wrong base", "valve-does-not-fit", "V1", Weight.Contradiction },
        { "unknown type", "valve-type-unknown", "V1", Weight.Remark },
        { "socket words", "socket-says-otherwise", "V1-3", Weight.Contradiction },
        { "reversed reservoir", "electrolytic-reversed", "C2", Weight.Contradiction },
        { "reversed bypass", "electrolytic-reversed", "C3", Weight.Contradiction },
        { "reversed silicon", "rectifier-reversed", "D1", Weight.Contradiction },
        { "reversed valve", "rectifier-reversed", "V3", Weight.Contradiction },
        { "line shorted", "line-shorted", "P1-2", Weight.Contradiction },
        { "line on chassis", "chassis-on-line", "CH", Weight.Contradiction },
        { "foot without bond", "foot-without-bond", "A-3", Weight.Doubt },
        { "lugs in one place", "lugs-in-one-place", "A-2", Weight.Contradiction },
        { "mounts too near", "mounts-too-near", "B-1", Weight.Doubt },
        { "span too long", "span-too-long", "R11", Weight.Doubt },
        { "lug unplaced", "lug-without-place", "A-2", Weight.Remark },
        { "unknown kind", "unknown-kind", "X1", Weight.Remark },
        { "marking", "marking-against-value", "R4", Weight.Contradiction },
        { "ambiguous marking", "marking-against-value", "R4", Weight.Doubt },
        { "colours", "colours-against-value", "R4", Weight.Contradiction },
        { "sheet value", "sheet-against-part", "R4", Weight.Doubt },
        { "value", "value-impossible", "C4", Weight.Doubt },
        { "unit", "unit-does-not-fit", "C4", Weight.Contradiction },
        { "dead pin", "dead-pin-as-tie", "V2-1", Weight.Remark },
    };

    private static TestBook Seed(string slip) => slip switch
    {
        "lead on no lug" => Good.Change("R5", p => p with { LeadB = "Z-9" }),
        "one lead" => Good.Change("R5", p => p with { LeadB = null }),
        "no wiper" => Good.Part("R9", "control", "B-3", "A-3", 500e3),
        "two parts" => Good.Resistor("r1", 100, "K1-1", "K1-2"),
        "two mounts" => Good.Mount("a", "tag strip"),
        "two lugs" => Good.Mount("Q", "tag strip", "a-5"),
        "entered twice" => Good.Resistor("R12", 2200, "A-3", "v1-8"),
        "shorted" => Good.Change("R4", p => p with { LeadB = "V1-8" }),
        "shorted by wire" => Good.Wire("V1-3", "B-1"),
        "bridged switch" => Good.Wire("S1-1", "S1-2"),
        "floating" => Good.Change("R4", p => p with { LeadB = "B-4" }),
        "wire to unknown" => Good.Wire("A-4", "A-9"),
        "wire to itself" => Good.Wire("A-4", "a-4"),
        "wire to nothing" => Good.Wire("B-4", "B-5"),
        "no grid leak" => Good.Without("R2"),
        "no cathode resistor" => Good.Without("R4"),
        "no plate load" => Good.Without("R3"),
        "no screen wire" => Good.Cut("V2-4", "K1-2"),
        "grid on supply" => Good.Wire("V2-5", "K1-2"),
        "heater on plate" => Good.Wire("V1-2", "V1-3"),
        "heater on grid" => Good.Wire("V1-2", "V2-5"),
        "heater open" => Good.Cut("V1-7", "K1-3"),
        "heater chain cut" => Good.Cut("V3-2", "V2-2"),
        "heater shorted" => Good.Wire("V1-2", "V1-7"),
        "heater volts" => Good.Change("V1", p => p with { Marked = "12J5GT" }),
        "no valve" => Good.ChangeLug("V1-5", l => l with { Function = "grid" }).Without("V1"),
        "wrong base" => Good.Change("V1", p => p with { Marked = "6C4" }),
        "unknown type" => Good.Change("V1", p => p with { Marked = "6ZZ99" }),
        "socket words" => Good.ChangeLug("V1-3", l => l with { Function = "cathode" }),
        "reversed reservoir" => Good.Change("C2", p => p with { PlusLead = 'b' }),
        "reversed bypass" => Good.Change("C3", p => p with { PlusLead = 'b' }),
        "reversed silicon" => Good.Part("D1", "silicon rectifier", "K1-1", "V3-3", plus: 'b'),
        "reversed valve" => Good.Cut("V3-8", "K1-1").Wire("V3-3", "K1-1").Wire("V3-8", "B-5"),
        "line shorted" => Good.Wire("A-1", "A-2"),
        "line on chassis" => Good.Wire("A-1", "K1-3"),
        "foot without bond" => Good.Cut("A-3", "CH").ChangeLug("A-3", l => l with { Function = "mounting foot" }),
        "lugs in one place" => Good.ChangeLug("A-1", l => l with { X = 10, Y = 10 }).ChangeLug("A-2", l => l with { X = 10.2, Y = 10 }),
        "mounts too near" => Good.ChangeLug("A-1", l => l with { X = 10, Y = 10 }).ChangeLug("B-1", l => l with { X = 13, Y = 13 }),
        "span too long" => Good.ChangeLug("A-4", l => l with { X = 10, Y = 10 }).ChangeLug("B-2", l => l with { X = 140, Y = 10 }).Resistor("R11", 1e6, "A-4", "B-2"),
        "lug unplaced" => Good.ChangeLug("A-1", l => l with { X = 10, Y = 10 }),
        "unknown kind" => Good.Part("X1", "flux capacitor", "A-4", "B-2"),
        "marking" => Good.Change("R4", p => p with { Marked = "22K" }),
        "ambiguous marking" => Good.Change("R4", p => p with { Marked = "22M" }),
        "colours" => Good.Change("R4", p => p with { Code = "red red orange silver" }),
        "sheet value" => Good.Sheet("R4", "resistor", 4700),
        "value" => Good.Change("C4", p => p with { Value = 20 }),
        "unit" => Good.Change("C4", p => p with { Unit = Trade.Quantities.Unit.Ohm }),
        "dead pin" => Good.Wire("V2-1", "K1-2"),
        _ => throw new ArgumentOutOfRangeException(nameof(slip), slip, "No such slip."),
    };

    [Theory]
    [MemberData(nameof(Slips))]
    public void A_seeded_slip_is_found_at_its_place(string slip, string rule, string place, Weight weight)
    {
        Assert.DoesNotContain(Find(Good), c => c.Rule == rule && c.Place == place);
        output.WriteLine("--");
        var found = Find(Seed(slip));
        var hit = Assert.Single(found, c => c.Rule == rule && string.Equals(c.Place, place, StringComparison.OrdinalIgnoreCase));
        Assert.Equal(weight, hit.Weight);
        Assert.EndsWith(".", hit.Sentence, StringComparison.Ordinal);
    }
}
