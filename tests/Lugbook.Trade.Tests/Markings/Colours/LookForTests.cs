using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: the layouts of data/reference/colour-codes.csv, worked by hand.</summary>
public class LookForTests
{
    private static ColourLook Look(string family, double value, Unit unit, double? percent = null, double? volts = null, double? tempco = null) =>
        ColourCodes.LookFor(value, unit, percent is { } p ? Tolerance.Percent(p) : null, volts, tempco).Single(l => l.Family.Id == family);

    [Theory]
    [InlineData("resistor-band", 220e3, 10, "red red yellow silver")]
    [InlineData("resistor-band", 220e3, 20, "red red yellow")]
    [InlineData("resistor-band", 0.27, 5, "red violet silver gold")]
    [InlineData("resistor-5band", 49.9e3, 1, "yellow white white red brown")]
    [InlineData("resistor-body-end-dot", 220e3, 10, "red red yellow silver")]
    [InlineData("resistor-body-end-dot", 1e6, 20, "brown black green")]
    [InlineData("resistor-flexible", 750, 10, "violet green brown")]
    public void Resistors(string family, double ohms, double percent, string marking)
    {
        var look = Look(family, ohms, Unit.Ohm, percent);
        Assert.Equal(marking, look.Marking);
        Assert.True(look.Exact);
    }

    [Theory]
    [InlineData("mica-rma-6", 510e-12, 2, 500.0, "green brown black green red black")]
    [InlineData("mica-rma-6", 125e-12, 10, 300.0, "brown red green orange silver black")]
    [InlineData("mica-rma-5", 250e-12, 10, 1000.0, "red green brown gold silver")]
    [InlineData("mica-rma-3", 250e-12, 20, 500.0, "red green brown")]
    [InlineData("mica-mil-6", 6200e-12, 5, null, "black blue red red gold red")]
    [InlineData("mica-eia-6", 6200e-12, 5, null, "white blue red red green red")]
    [InlineData("paper-tubular", 6800e-12, 20, 1600.0, "blue grey red black brown blue")]
    [InlineData("paper-tubular", 22e-9, 20, 400.0, "red red orange black yellow")]
    [InlineData("film-polyester", 470e-9, 10, 250.0, "yellow violet yellow white red")]
    [InlineData("uk-condenser", 300e-12, 5, 100.0, "orange black brown green brown")]
    public void Capacitors(string family, double farads, double percent, double? volts, string marking)
    {
        var look = Look(family, farads, Unit.Farad, percent, volts);
        Assert.Equal(marking, look.Marking);
        Assert.True(look.Exact);
    }

    [Fact]
    public void Ceramics_show_picofarads_of_tolerance_at_ten_and_below_and_the_coefficient()
    {
        var small = ColourCodes.LookFor(5e-12, Unit.Farad, Tolerance.Symmetric(0.05), null, 0).Single(l => l.Family.Id == "ceramic-5");
        Assert.Equal("black green black white grey", small.Marking);
        Assert.Equal("violet yellow violet black green", Look("ceramic-5", 47e-12, Unit.Farad, 5, null, -750).Marking);
        Assert.Equal("red violet brown black brown green", Look("ceramic-6", 100e-12, Unit.Farad, 5, null, 100).Marking);
    }

    [Fact]
    public void Each_mark_says_its_place_and_its_role()
    {
        var marks = Look("resistor-body-end-dot", 220e3, Unit.Ohm, 10).Marks;
        Assert.Equal(["body", "end", "dot", "other end"], marks.Select(m => m.Place));
        Assert.Equal(["first figure", "second figure", "multiplier", "tolerance"], marks.Select(m => m.Role));
        Assert.DoesNotContain(marks, m => m.IsFree);
    }

    [Fact]
    public void What_was_not_asked_for_is_marked_as_free()
    {
        var look = Look("mica-mil-6", 100e-12, Unit.Farad);
        Assert.Equal(["bottom left", "bottom centre"], look.Marks.Where(m => m.IsFree).Select(m => m.Place));
        Assert.True(look.Exact);
    }

    [Fact]
    public void Too_many_figures_are_shown_as_the_nearest_and_said_to_be()
    {
        var look = Look("resistor-band", 4990, Unit.Ohm, 1);
        Assert.Equal("green black red brown", look.Marking);
        Assert.False(look.Exact);
        Assert.False(Look("mica-rma-3", 250e-12, Unit.Farad, 5).Exact);
        Assert.False(Look("film-polyester", 470e-9, Unit.Farad, 10, 630).Exact);
    }

    [Fact]
    public void What_no_code_shows_is_an_empty_list_and_nonsense_is_refused()
    {
        Assert.Empty(ColourCodes.LookFor(8, Unit.Henry));
        Assert.Empty(ColourCodes.LookFor(1e12, Unit.Ohm));
        Assert.Empty(ColourCodes.LookFor(1, Unit.Farad));
        Assert.Throws<ArgumentOutOfRangeException>(() => ColourCodes.LookFor(0, Unit.Ohm));
        Assert.Throws<ArgumentOutOfRangeException>(() => ColourCodes.LookFor(double.NaN, Unit.Ohm));
        Assert.NotEmpty(ColourCodes.LookFor(22e-9, Unit.Farad, default(Tolerance), 1e300, 1e300));
    }

    [Fact]
    public void The_likeliest_code_comes_first()
    {
        Assert.Equal("resistor-band", ColourCodes.LookFor(47e3, Unit.Ohm, Tolerance.Percent(10))[0].Family.Id);
        Assert.Equal("resistor-5band", ColourCodes.LookFor(49.9e3, Unit.Ohm, Tolerance.Percent(1))[0].Family.Id);
    }

    [Fact]
    public void Families_can_be_listed()
    {
        Assert.Equal(ColourCodes.Families.Length, ColourCodes.Families.Select(f => f.Id).Distinct().Count());
        Assert.All(ColourCodes.Families, f => Assert.True(f.Title.Length > 0 && f.Layout.Length > 0 && f.Notes.Length > 0 && f.Kinds.Length > 0));
        Assert.Equal("mica-button", Assert.Single(ColourCodes.Families, f => !f.IsCertain).Id);
    }
}
