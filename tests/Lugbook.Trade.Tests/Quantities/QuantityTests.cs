using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Quantities;

public class QuantityTests
{
    [Fact]
    public void A_mark_prints_with_its_tolerance_and_a_plain_value_without()
    {
        Assert.Equal("47 kΩ ±20 %", Quantity.Marked(47e3, Unit.Ohm, Tolerance.Percent(20)).ToString());
        Assert.Equal("4n7 ±10 %", Quantity.Marked(4.7e-9, Unit.Farad, Tolerance.Percent(10)).Print(NotationStyle.LetterCode));
        Assert.Equal("8 H", Quantity.Of(8, Unit.Henry).ToString());
        Assert.Equal("0 Ω", default(Quantity).ToString());
    }

    [Fact]
    public void What_is_not_finite_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantity.Of(double.NaN, Unit.Ohm));
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantity.Measured(1, -1, Unit.Ohm));
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantity.Measured(double.PositiveInfinity, 1, Unit.Ohm));
    }

    [Fact]
    public void Equality_is_exact_and_counts_the_tolerance()
    {
        Assert.Equal(Quantity.Of(47, Unit.Ohm), Quantity.Of(47, Unit.Ohm));
        Assert.NotEqual(Quantity.Of(47, Unit.Ohm), Quantity.Of(47, Unit.Farad));
        Assert.NotEqual(Quantity.Of(47, Unit.Ohm), Quantity.Marked(47, Unit.Ohm, Tolerance.Percent(5)));
    }
}
