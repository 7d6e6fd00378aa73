using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Solve;
using Lugbook.Trade;

namespace Lugbook.Restoration.Tests.Sheet;

/// <summary>Source: a series circuit broken anywhere carries nothing; a parallel one keeps its other branches (Kirchhoff).</summary>
public class HeaterStringTests
{
    // Types of 150 mA whose heaters add up near the line, with their heater pins (data/valves/tubes.csv).
    private static readonly (string Type, int From, int To)[] Types = [("50L6GT", 2, 7), ("12SK7GT", 2, 7), ("12SQ7GT", 7, 8), ("12SA7GT", 2, 7), ("35Z5GT", 2, 7)];

    /// <summary>Heaters in one string across a 117 V line in the order of the seed, the rectifier feeding a 50L6GT and a 12SQ7; V0 and up.</summary>
    private static Book Series(int seed)
    {
        int[] order = [.. Enumerable.Range(0, Types.Length)];
        new Random(seed).Shuffle(order);
        var book = TestBook.New().Facts(f => f with { Year = 1946, LineVolts = 117, LineHertz = 60 })
            .Mount("P1", "line cord", "P1-1", "P1-2").Mount("K1", "can", "K1-1", "K1-2").Strip("A", 6).Wire("P1-2", "K1-2").Wire("K1-2", "CH", "bond").Wire("P1-1", "A-1");
        for (var k = 0; k < Types.Length; k++) book.Valve($"V{k}", Types[k].Type);
        var at = "A-1";
        foreach (var k in order)
        {
            book.Wire(at, $"V{k}-{Types[k].From}");
            at = $"V{k}-{Types[k].To}";
        }
        return book.Wire(at, "P1-2")
            .Wire("V4-5", "A-1").Wire("V4-8", "K1-1").Electrolytic("C1", 40e-6, 150, "K1-1", "K1-2").Resistor("R9", 100e3, "K1-1", "K1-2")
            .Resistor("R1", 2000, "V0-3", "K1-1").Wire("V0-4", "K1-1").Resistor("R2", 470e3, "V0-5", "K1-2").Resistor("R3", 150, "V0-8", "K1-2")
            .Resistor("R4", 220e3, "V2-6", "K1-1").Resistor("R5", 4.7e6, "V2-2", "K1-2").Wire("V2-3", "K1-2").Build();
    }

    private static SolveResult Running(Book book)
    {
        var solved = Solved.Of(book);
        Assert.True(solved.Cycle is not null, solved.Reason);
        return solved;
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Every_valve_of_a_series_string_goes_dark_with_one(int seed)
    {
        var solved = Running(Series(seed));
        for (var k = 0; k < Types.Length; k++) Assert.Equal(Types.Length, HeaterStrings.Dark(solved, $"V{k}").Count);
    }

    [Fact]
    public void Beside_each_other_the_others_stay_lit()
    {
        var solved = Running(TestBook.GoodSet().Build());
        foreach (var valve in new[] { "V1", "V2", "V3" }) Assert.Equal([valve], HeaterStrings.Dark(solved, valve));
    }

    /// <summary>The string out, nothing draws from the supply, which has no rectifier: no volts, no watts, and the sheet says so.</summary>
    [Fact]
    public void The_sheet_shows_a_pulled_series_valve_with_all_dark()
    {
        var book = Series(1);
        var found = Stresses.Of(Running(book), SheetConditions.Of(book, DemoBooks.Handbook));
        Assert.Contains("V2 pulled, which puts its heater string out", found.Moments);
        Assert.DoesNotContain("V2 pulled", found.Moments);
        // With the output valve's heater still lit and its driver pulled, its plate would dissipate as before; dark, no moment but those with all lit may be its worst.
        Assert.All(found.Valves.Where(v => v.Valve == "V0"), v => Assert.DoesNotContain("pulled", v.Amount.Moment, StringComparison.Ordinal));
        // Contact potentials of grids stay: a fraction of a volt.
        Assert.All(found.Parts.Where(p => p.Volts!.Worst > 2), p => Assert.DoesNotContain("pulled", p.Volts!.Moment, StringComparison.Ordinal));
    }

    /// <summary>Two strings side by side: a break in one leaves the other.</summary>
    [Fact]
    public void Of_two_strings_only_the_broken_one_goes_dark()
    {
        var book = TestBook.New().Facts(f => f with { Year = 1946, LineVolts = 117, LineHertz = 60 })
            .Mount("P1", "line cord", "P1-1", "P1-2").Strip("A", 4).Wire("P1-2", "CH", "bond").Wire("P1-1", "A-1")
            .Valve("V1", "50L6GT").Valve("V2", "12SK7GT").Valve("V3", "50L6GT").Valve("V4", "12SK7GT")
            .Resistor("R1", 360, "A-1", "V1-2").Wire("V1-7", "V2-2").Wire("V2-7", "P1-2").Resistor("R2", 360, "A-1", "V3-2").Wire("V3-7", "V4-2").Wire("V4-7", "P1-2").Build();
        var solved = Running(book);
        Assert.Equal(["V1", "V2"], HeaterStrings.Dark(solved, "V2").Order());
        Assert.Equal(["V3", "V4"], HeaterStrings.Dark(solved, "V3").Order());
    }
}
