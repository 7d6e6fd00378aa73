using Lugbook.Restoration.Choose;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Source: tables written by hand from the circuits of the demo sets; the roles are what the circuit does, not what a note in the file says.</summary>
public class DemoChoiceTests
{
    [Theory]
    [InlineData("C2", Role.AcrossLine, "47 nF", SafetyClass.X2)]
    [InlineData("C3", Role.LineToTouchable, "4.7 nF", SafetyClass.Y1)]
    [InlineData("C4", Role.ControlVoltageFilter, "47 nF", SafetyClass.None)]
    [InlineData("C5", Role.Tuned, "56 pF", SafetyClass.None)]
    [InlineData("C6", Role.RfBypass, "220 pF", SafetyClass.None)]
    [InlineData("C7", Role.RfBypass, "220 pF", SafetyClass.None)]
    [InlineData("C8", Role.Coupling, "10 nF", SafetyClass.None)]
    [InlineData("C9", Role.PlateBypass, "220 pF", SafetyClass.None)]
    [InlineData("C10", Role.Coupling, "22 nF", SafetyClass.None)]
    [InlineData("C11", Role.PlateBypass, "22 nF", SafetyClass.None)]
    [InlineData("C12A", Role.Reservoir, "47 µF", SafetyClass.None)]
    [InlineData("C12B", Role.Filter, "33 µF", SafetyClass.None)]
    [InlineData("C12C", Role.CathodeBypass, "22 µF", SafetyClass.None)]
    [InlineData("T1CP", Role.Tuned, "110 pF", SafetyClass.None)]
    [InlineData("T2CS", Role.Tuned, "110 pF", SafetyClass.None)]
    public void Radio(string position, Role role, string value, SafetyClass safety) => Check(DemoBooks.Radio, position, role, value, safety);

    [Theory]
    [InlineData("C1", Role.LineToTouchable, "4.7 nF", SafetyClass.Y1)]
    [InlineData("C2", Role.CathodeBypass, "10 µF", SafetyClass.None)]
    [InlineData("C3", Role.ScreenBypass, "100 nF", SafetyClass.None)]
    [InlineData("C4", Role.Coupling, "22 nF", SafetyClass.None)]
    [InlineData("C6", Role.Coupling, "47 nF", SafetyClass.None)]
    [InlineData("C7", Role.Coupling, "47 nF", SafetyClass.None)]
    [InlineData("C8", Role.Filter, "10 µF", SafetyClass.None)]
    [InlineData("C9", Role.PlateToPlate, "3.3 nF", SafetyClass.None)]
    [InlineData("C10A", Role.Reservoir, "20 µF", SafetyClass.None)]
    [InlineData("C10B", Role.Filter, "22 µF", SafetyClass.None)]
    [InlineData("C10C", Role.Filter, "22 µF", SafetyClass.None)]
    [InlineData("C10D", Role.CathodeBypass, "22 µF", SafetyClass.None)]
    public void Amplifier(string position, Role role, string value, SafetyClass safety) => Check(DemoBooks.Amp, position, role, value, safety);

    [Theory]
    [InlineData("C1", Role.AcrossLine, "47 nF", SafetyClass.X2)]
    [InlineData("C2", Role.Doubler, "100 µF", SafetyClass.None)]
    [InlineData("C3A", Role.Reservoir, "100 µF", SafetyClass.None)]
    [InlineData("C3B", Role.Filter, "47 µF", SafetyClass.None)]
    [InlineData("C3C", Role.CathodeBypass, "22 µF", SafetyClass.None)]
    [InlineData("C4A", Role.Filter, "100 µF", SafetyClass.None)]
    [InlineData("C4B", Role.Filter, "47 µF", SafetyClass.None)]
    [InlineData("C4C", Role.CathodeBypass, "100 µF", SafetyClass.None)]
    [InlineData("C5", Role.LineToTouchable, "470 pF", SafetyClass.Y1)]
    [InlineData("C6", Role.LineToTouchable, "470 pF", SafetyClass.Y1)]
    [InlineData("C9", Role.ControlVoltageFilter, "47 nF", SafetyClass.None)]
    [InlineData("C10", Role.ControlVoltageFilter, "100 nF", SafetyClass.None)]
    [InlineData("C13", Role.ScreenBypass, "1 nF", SafetyClass.None)]
    [InlineData("C14", Role.CathodeBypass, "1 nF", SafetyClass.None)]
    [InlineData("C18", Role.HeaterBypass, "1 nF", SafetyClass.X2)]
    [InlineData("C24", Role.CathodeBypass, "47 µF", SafetyClass.None)]
    [InlineData("C25", Role.ScreenBypass, "10 µF", SafetyClass.None)]
    [InlineData("C38", Role.Coupling, "4.7 nF", SafetyClass.None)]
    [InlineData("C39", Role.Coupling, "4.7 nF", SafetyClass.None)]
    [InlineData("C41", Role.PlateBypass, "4.7 nF", SafetyClass.None)]
    [InlineData("C44", Role.Coupling, "10 nF", SafetyClass.None)]
    [InlineData("C57", Role.Filter, "10 µF", SafetyClass.None)]
    [InlineData("C58", Role.Tuned, "4.7 nF", SafetyClass.None)]
    [InlineData("C60", Role.Timing, "680 pF", SafetyClass.None)]
    [InlineData("C62", Role.CathodeBypass, "10 µF", SafetyClass.None)]
    [InlineData("C63", Role.ScreenBypass, "47 nF", SafetyClass.None)]
    [InlineData("C64", Role.Boost, "100 nF", SafetyClass.None)]
    [InlineData("C65", Role.Boost, "47 nF", SafetyClass.None)]
    public void Television(string position, Role role, string value, SafetyClass safety) => Check(DemoBooks.Tv, position, role, value, safety);

    [Fact]
    public void Only_the_positions_named_here_are_on_the_line()
    {
        string[] Line(Book book) => [.. Shop.Choose(book).Choices.Where(c => c.Requirement.SafetyClass != SafetyClass.None).Select(c => c.Position)];
        Assert.Equal(["C2", "C3"], Line(DemoBooks.Radio));
        Assert.Equal(["C1"], Line(DemoBooks.Amp));
        // C18 to C21 lie across single heaters of the series string: with one heater open the whole line stands there.
        Assert.Equal(["C1", "C5", "C6", "C18", "C19", "C20", "C21"], Line(DemoBooks.Tv));
    }

    /// <summary>Source: common practice, no source: an engineer puts one 5600 pF in the place of a paper .006 of ±20 %.</summary>
    [Fact]
    public void A_tone_capacitor_of_wide_tolerance_has_one_successor_within_half_of_it()
    {
        var choice = Shop.Choose(DemoBooks.Amp).For("C5")!;
        Assert.Equal(Role.Tone, choice.Role.Role);
        Assert.InRange(choice.Part!.Value, 6e-9 * 0.9, 6e-9 * 1.1);
        // Window and the new part's own tolerance together stay within the old tolerance.
        Assert.All(choice.Candidates, c => Assert.True(Math.Abs(c.Value / 6e-9 - 1) + c.TolerancePercent / 100 <= 0.2 + 1e-9));
    }

    [Fact]
    public void A_tone_capacitor_of_narrow_tolerance_keeps_its_narrow_window_and_takes_two()
    {
        var choice = Shop.Choose(DemoBooks.Amp with { Parts = DemoBooks.Amp.Parts.Replace(DemoBooks.Amp.Parts.Named("C5")! with { Tolerance = Trade.Quantities.Tolerance.Percent(5) }) }).For("C5")!;
        Assert.Null(choice.Part);
        Assert.Equal(Joining.Parallel, choice.Candidates[0].Joining);
        Assert.InRange(choice.Candidates[0].Value, 6e-9 * 0.95, 6e-9 * 1.05);
        Assert.All(choice.Candidates[0].Parts, p => Assert.True(p.Volts >= choice.Requirement.VoltsAtLeast && p.TolerancePercent <= 5));
        Assert.Contains("Nearest", choice.Explanation, StringComparison.Ordinal);
        Assert.All(choice.Candidates.Skip(1), c => Assert.NotEmpty(c.WhyNot!));
    }

    [Fact]
    public void The_return_to_an_isolated_chassis_is_the_users_to_decide()
    {
        var at117 = Shop.Choose(DemoBooks.Radio with { Facts = DemoBooks.Radio.Facts with { LineVolts = 117, LineHertz = 60 } }).For("C3")!;
        Assert.Contains("Yours to decide", at117.Question, StringComparison.Ordinal);
        Assert.Equal(4.41, at117.OldTouchCurrents.Single().Milliamperes, 0.01);
        Assert.Equal(0.207, at117.NewTouchCurrents.Single().Milliamperes, 0.001);
        // The line not being known, both common ones are shown.
        Assert.Equal([117.0, 230.0], Shop.Choose(DemoBooks.Radio with { Facts = DemoBooks.Radio.Facts with { LineVolts = null } }).For("C3")!.NewTouchCurrents.Select(c => c.LineVolts));
    }

    /// <summary>Source: 5Y3GT 20 µF, 35Z5GT 40 µF, data/valves/rectifier-points.csv.</summary>
    [Fact]
    public void The_reservoir_never_grows_beyond_what_the_rectifier_valve_bears()
    {
        Assert.Equal(20e-6, Shop.Choose(DemoBooks.Amp).For("C10A")!.Requirement.Value!.High, 1e-9);
        Assert.Equal(50e-6, Shop.Choose(DemoBooks.Radio).For("C12A")!.Requirement.Value!.High, 1e-9);
        var unknown = ChooseStage.Run(Lugbook.Restoration.Map.MapStage.Run(DemoBooks.Amp, DemoBooks.Handbook), Shop.Policy with { RectifierLimits = [] }).For("C10A")!;
        Assert.Equal(30e-6, unknown.Requirement.Value!.High, 1e-9);
    }

    [Fact]
    public void A_protective_earth_lets_Y2_do()
    {
        var earthed = DemoBooks.Amp with
        {
            Lugs = DemoBooks.Amp.Lugs.Add(new() { Name = "P1-3", Mount = "P1", No = 3, Function = "earth" }),
            Wires = DemoBooks.Amp.Wires.Add(new() { Name = "W99", From = "P1-3", To = "E1", KindAsWritten = "line cord", Colour = "green" }),
        };
        Assert.Equal(SafetyClass.Y2, Shop.Choose(earthed).For("C1")!.Requirement.SafetyClass);
    }

    [Fact]
    public void A_can_is_chosen_section_by_section_and_kept_together()
    {
        var can = Shop.Choose(DemoBooks.Amp).SharedBodies.Single(b => b.Group == "K1");
        Assert.Equal(["C10A", "C10B", "C10C", "C10D"], can.Positions);
    }

    [Fact]
    public void Other_kinds_are_named_with_a_reason()
    {
        var result = Shop.Choose(DemoBooks.Tv);
        Assert.Equal(DemoBooks.Tv.Parts.Count, result.Choices.Length + result.NotChosen.Length);
        Assert.Contains(result.NotChosen, n => n.Position == "SE1" && n.Reason.Contains("silicon", StringComparison.Ordinal));
        Assert.All(result.NotChosen, n => Assert.StartsWith("Not chosen here", n.Reason, StringComparison.Ordinal));
        Assert.Contains(result.Cautions, c => c.Id == "S-live-chassis");
        Assert.Contains(result.Cautions, c => c.Id == "S-selenium");
        Assert.DoesNotContain(Shop.Choose(DemoBooks.Amp).Cautions, c => c.Id is "S-live-chassis" or "S-selenium" or "S-crt-charge");
    }

    [Fact]
    public void A_line_position_that_the_user_lets_stay_is_asked_about()
    {
        var book = DemoBooks.Radio with { Work = Table<PositionWork>.Of([new() { Name = "C2", Decision = Decision.Stays, Reason = "looks good" }]) };
        var choice = Shop.Choose(book).For("C2")!;
        Assert.Equal(Decision.Stays, choice.Decision);
        Assert.Contains("class X2 mark", choice.Question, StringComparison.Ordinal);
        Assert.Contains(choice.Cautions, c => c.Id == "S-line-capacitors");
    }

    [Theory]
    [InlineData("C2", "47n 630V film", false, "class X2")]
    [InlineData("C2", "47n X2 305V", true, null)]
    [InlineData("C10", "22n 630V", true, null)]
    [InlineData("C10", "220n 630V", true, "lies outside")]
    [InlineData("C10", "22n 100V", true, "less than")]
    [InlineData("C2", "whatever is in the drawer", false, "class X2")]
    public void What_the_user_wrote_is_held_against_the_requirement_and_never_taken_on_the_line_without_its_class(string position, string written, bool taken, string? fault)
    {
        var choice = Shop.Choose(DemoBooks.Radio with { Work = Table<PositionWork>.Of([new() { Name = position, Decision = Decision.Goes, Replacement = written }]) }).For(position)!;
        Assert.Equal(taken, choice.New == written);
        if (fault is null) Assert.Null(choice.UserReplacementFault);
        else Assert.Contains(fault, choice.UserReplacementFault, StringComparison.Ordinal);
    }

    private static void Check(Book book, string position, Role role, string value, SafetyClass safety)
    {
        var choice = Shop.Choose(book).For(position)!;
        Assert.Equal(role, choice.Role.Role);
        Assert.Equal(safety, choice.Requirement.SafetyClass);
        Assert.StartsWith(value + " ", choice.Part!.Text, StringComparison.Ordinal);
        Assert.Equal(safety, choice.Part.SafetyClass);
    }
}
