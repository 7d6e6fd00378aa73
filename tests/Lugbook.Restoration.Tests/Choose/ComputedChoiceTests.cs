using Lugbook.Restoration.Bounds;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Sheet;
using Lugbook.Trade;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>What the solved circuit adds to a choice.</summary>
public class ComputedChoiceTests
{
    private static readonly Lazy<(Book Book, ChooseBasis Basis, ChooseResult Result)> Amp = new(() => Of(DemoBooks.Amp));

    private static (Book, ChooseBasis, ChooseResult) Of(Book book)
    {
        var solved = Solved.Of(book);
        ChooseBasis basis = new(solved, SheetStage.Run(solved, SheetConditions.Of(book, DemoBooks.Handbook) with { Samples = 60 }), BoundsStage.Run(solved));
        return (book, basis, ChooseStage.Run(solved.Netlist.Map, Shop.Policy, basis));
    }

    [Fact]
    public void A_capacitor_is_never_rated_below_the_worst_moment_that_was_computed() =>
        Assert.All(Amp.Value.Result.Choices.Where(c => c.Unit == Unit.Farad && c.Requirement.SafetyClass == SafetyClass.None), c =>
        {
            if (Amp.Value.Basis.StressOf(c.Position)?.Volts is not { } stress) return;
            Assert.True(c.Requirement.VoltsAtLeast >= stress.Worst - 1e-9, $"{c.Position}: {c.Requirement.VoltsAtLeast} V against {stress.Worst} V");
            Assert.True(c.Part is null || c.Part.Volts >= stress.Worst);
        });

    // Source: the project's notes on replacement practice: at least the old rating, and at least twice the computed dissipation.
    [Fact]
    public void A_resistor_gets_twice_its_watts_and_never_less_than_its_mark() =>
        Assert.All(Amp.Value.Result.Choices.Where(c => c.Unit == Unit.Ohm), c =>
        {
            var watts = Amp.Value.Basis.StressOf(c.Position)!.Watts!;
            Assert.True(c.Requirement.WattsAtLeast >= 2 * watts.Normal - 5e-4 && c.Requirement.WattsAtLeast >= watts.Worst - 5e-4 && c.Requirement.WattsAtLeast >= (c.OldWatts ?? 0));
        });

    [Fact]
    public void A_window_never_reaches_a_value_at_which_the_circuit_passes_a_limit() =>
        Assert.All(Amp.Value.Result.Choices.Where(c => c.Unit == Unit.Ohm && c.Role.Role != Role.TouchBarrier), c =>
        {
            var (bound, window) = (Amp.Value.Basis.BoundOf(c.Position)!, c.Requirement.Value!);
            // A window is never narrower than today's 1 % parts fill.
            Assert.True(bound.Up is null || window.High <= Math.Max(bound.Up.Ohms, c.OldValue!.Value * 1.01) * (1 + 1e-9), $"{c.Position}");
            Assert.True(bound.Down is null || window.Low >= Math.Min(bound.Down.Ohms, c.OldValue!.Value * 0.99) * (1 - 1e-9), $"{c.Position}");
        });

    // Closed form: a coupling capacitor from a stage of output resistance Ro into a grid leak Rg turns over at 1/(2π·C·(Ro + Rg)); Ro lies between 0 and the plate load.
    [Fact]
    public void The_corner_of_a_coupling_capacitor_lies_where_its_grid_leak_puts_it()
    {
        var book = TestBook.GoodSet().Declared("K1-2", 250).Build();
        var solved = Solved.Of(book);
        var c = (Circuit.Elements.Capacitor)solved.Direct!.Elements.First(e => e.Name == "C4");
        var seen = System.Numerics.Complex.Abs(Circuit.SmallSignal.Seen(solved.Direct, solved.Point!, c.A, c.B, "C4", 20));
        Assert.InRange(seen, 470e3, 470e3 + 100e3);
    }

    [Fact]
    public void The_users_word_about_a_role_holds_and_says_what_the_map_said()
    {
        var book = DemoBooks.Amp with { Work = DemoBooks.Amp.Work.Add(new PositionWork { Name = "C6", Role = "tone" }) };
        var choice = Shop.Choose(book).For("C6")!;
        Assert.Equal(Role.Tone, choice.Role.Role);
        Assert.True(choice.Role.ByUser);
        Assert.Contains("coupling", choice.Role.Evidence, StringComparison.Ordinal);
        Assert.Equal(10, choice.Requirement.TolerancePercentAtMost);
    }

    [Fact]
    public void No_word_about_a_role_takes_a_safety_class_away()
    {
        var book = DemoBooks.Radio with { Work = DemoBooks.Radio.Work.AddRange([new PositionWork { Name = "C2", Role = "decoupling" }, new PositionWork { Name = "C3", Role = "coupling" }]) };
        Assert.Equal(SafetyClass.X2, Shop.Choose(book).For("C2")!.Requirement.SafetyClass);
        Assert.Equal(SafetyClass.Y1, Shop.Choose(book).For("C3")!.Requirement.SafetyClass);
        Assert.NotNull(Shop.Choose(book).For("C3")!.Question);
    }

    [Fact]
    public void A_role_that_is_no_word_is_asked_about()
    {
        var book = DemoBooks.Amp with { Work = DemoBooks.Amp.Work.Add(new PositionWork { Name = "C6", Role = "wobbler" }) };
        Assert.Contains("wobbler", Shop.Choose(book).For("C6")!.Question, StringComparison.Ordinal);
    }

    [Fact]
    public void Words_about_a_role_are_read_back() => Assert.All(Enum.GetValues<Role>(), r => Assert.Equal(r, ChooseStage.RoleOf(ChooseStage.WordsOf(r).ToUpperInvariant())));
}
