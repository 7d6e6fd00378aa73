using CsCheck;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Quantities;

public class NotationTests
{
    /// <summary>Source: common practice, no source; letter codes after IEC 60062.</summary>
    [Theory]
    [InlineData(4700, Unit.Ohm, "4.7 kΩ", "4k7", "4700 OHMS", "4700 OHMS")]
    [InlineData(47000, Unit.Ohm, "47 kΩ", "47k", "47K", "47M")]
    [InlineData(1e6, Unit.Ohm, "1 MΩ", "1M0", "1 MEG", "1 MEG")]
    [InlineData(2.2e6, Unit.Ohm, "2.2 MΩ", "2M2", "2.2 MEG", "2.2 MEG")]
    [InlineData(0.47, Unit.Ohm, "0.47 Ω", "R47", ".47 OHMS", ".47 OHMS")]
    [InlineData(4.7, Unit.Ohm, "4.7 Ω", "4R7", "4.7 OHMS", "4.7 OHMS")]
    [InlineData(100, Unit.Ohm, "100 Ω", "100R", "100 OHMS", "100 OHMS")]
    [InlineData(4.7e-8, Unit.Farad, "0.047 µF", "47n", ".047 MFD", ".047 MFD")]
    [InlineData(4.7e-9, Unit.Farad, "4700 pF", "4n7", ".0047 MFD", ".0047 MFD")]
    [InlineData(2.5e-10, Unit.Farad, "250 pF", "250p", "250 MMF", "250 MMF")]
    [InlineData(1e-8, Unit.Farad, "0.01 µF", "10n", ".01 MFD", ".01 MFD")]
    [InlineData(1e-4, Unit.Farad, "100 µF", "100µ", "100 MFD", "100 MFD")]
    [InlineData(4.7e-13, Unit.Farad, "0.47 pF", "p47", ".47 MMF", ".47 MMF")]
    [InlineData(8, Unit.Henry, "8 H", "8H", "8 HY", "8 HY")]
    [InlineData(2.5e-3, Unit.Henry, "2.5 mH", "2m5H", "2.5 MH", "2.5 MH")]
    [InlineData(36e-6, Unit.Henry, "36 µH", "36µH", "36 UH", "36 UH")]
    [InlineData(600, Unit.Volt, "600 V", "600V", "600 V", "600 V")]
    [InlineData(1600, Unit.Volt, "1600 V", "1k6V", "1600 V", "1600 V")]
    [InlineData(-1.3, Unit.Volt, "−1.3 V", "−1V3", "−1.3 V", "−1.3 V")]
    [InlineData(0.5, Unit.Watt, "0.5 W", "W5", "1/2 W", "1/2 W")]
    [InlineData(2, Unit.Watt, "2 W", "2W", "2 W", "2 W")]
    [InlineData(0.12, Unit.Ampere, "120 mA", "120mA", "120 MA", "120 MA")]
    [InlineData(0, Unit.Volt, "0 V", "0V", "0 V", "0 V")]
    public void Prints_as_the_trade_writes(double value, Unit unit, string plain, string letters, string old, string thousand)
    {
        Assert.Equal(plain, Notation.Print(value, unit));
        Assert.Equal(letters, Notation.Print(value, unit, NotationStyle.LetterCode));
        Assert.Equal(old, Notation.Print(value, unit, NotationStyle.Old));
        Assert.Equal(thousand, Notation.Print(value, unit, NotationStyle.OldThousand));
    }

    /// <summary>Source: 1 nF = 1000 pF.</summary>
    [Fact]
    public void The_shop_writes_nanofarads()
    {
        Assert.Equal("47 nF", Notation.Print(4.7e-8, Unit.Farad, NotationStyle.Shop));
        Assert.Equal("4.7 nF", Notation.Print(4.7e-9, Unit.Farad, NotationStyle.Shop));
        Assert.Equal("470 pF", Notation.Print(4.7e-10, Unit.Farad, NotationStyle.Shop));
        Assert.Equal("1 µF", Notation.Print(1e-6, Unit.Farad, NotationStyle.Shop));
    }

    [Fact]
    public void No_rounding_dust_is_printed_and_rounding_carries_into_the_next_step()
    {
        Assert.Equal("0.047 µF", Notation.Print(0.1e-6 - 0.053e-6, Unit.Farad));
        Assert.Equal("0.3 Ω", Notation.Print(0.1 + 0.2, Unit.Ohm));
        Assert.Equal("1 kΩ", Notation.Print(999.99999, Unit.Ohm));
        Assert.Equal("57.83 kΩ", Notation.Print(57833.333, Unit.Ohm));
        Assert.Equal("58 kΩ", Notation.Print(57833.333, Unit.Ohm, figures: 2));
        Assert.Equal("not a number Ω", Notation.Print(double.NaN, Unit.Ohm));
        Assert.Equal("∞ Ω", Notation.Print(double.PositiveInfinity, Unit.Ohm));
    }

    /// <summary>Source: common practice, no source.</summary>
    [Fact]
    public void Tolerances_print_with_their_signs()
    {
        Assert.Equal("±20 %", Notation.Print(Tolerance.Percent(20)));
        Assert.Equal("±0.25 %", Notation.Print(Tolerance.Percent(0.25)));
        Assert.Equal("−10 +100 %", Notation.Print(Tolerance.Between(0.1, 1)));
        Assert.Equal("GMV: −0 +100 %", Notation.Print(Tolerance.Between(0, 1)));
        Assert.Equal("−20 +80 %", Notation.Print(Tolerance.Between(0.2, 0.8)));
    }

    /// <summary>Source: ISO/IEC Guide 98-3 (GUM) 7.2.6: at most two figures for the uncertainty, the value rounded with it.</summary>
    [Theory]
    [InlineData(57812, 578, Unit.Ohm, "57.8 ± 0.6 kΩ")]
    [InlineData(57812, 1449, Unit.Ohm, "57.8 ± 1.4 kΩ")]
    [InlineData(4.71e-9, 3e-11, Unit.Farad, "4710 ± 30 pF")]
    [InlineData(251.27, 1.26, Unit.Volt, "251.3 ± 1.3 V")]
    [InlineData(251.27, 12.6, Unit.Volt, "251 ± 13 V")]
    [InlineData(100, 0, Unit.Ohm, "100 Ω")]
    [InlineData(-1.304, 0.02, Unit.Volt, "−1.30 ± 0.02 V")]
    [InlineData(47000, 0.96, Unit.Ohm, "47.000 ± 0.001 kΩ")]
    [InlineData(0.001, 2, Unit.Ohm, "0 ± 2 Ω")]
    public void A_measured_value_prints_with_sensible_figures(double value, double uncertainty, Unit unit, string text)
    {
        Assert.Equal(text, Notation.PrintWithUncertainty(value, uncertainty, unit));
        Assert.Equal(text, Quantity.Measured(value, uncertainty, unit).Print());
    }

    /// <summary>Source: 57.8/47 = 1.2298; common practice, no source.</summary>
    [Fact]
    public void Forty_seven_k_that_measures_57_8_k_is_23_per_cent_high()
    {
        Assert.Equal("+23 %", Notation.PrintDeviation(57.8e3, 47e3));
        Assert.False(Tolerance.Percent(20).Holds(47e3, 57.8e3));
        Assert.Equal("−6 %", Notation.PrintDeviation(.0047e-6, .005e-6));
        Assert.Equal("−12 %", Notation.PrintDeviation(.22, .25));
        Assert.Equal("+1.3 %", Notation.PrintDeviation(101.3, 100));
        Assert.Equal("0 %", Notation.PrintDeviation(47, 47).TrimStart('+'));
        Assert.Equal("+125 %", Notation.PrintDeviation(225, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => Notation.PrintDeviation(1, 0));
    }

    private static readonly Gen<double> Mantissa = Gen.Select(Gen.Int[100, 999], Gen.Int[0, 2], (m, kind) => kind == 0 ? m / 100 : kind == 1 ? m / 10 : (double)m);

    private static Gen<(double Value, Unit Unit)> TradeValue => Gen.Select(Mantissa, Gen.Int[0, 5], Gen.Int[0, 12], (m, u, d) =>
    {
        var unit = (Unit)u;
        var (low, decades) = unit switch
        {
            Unit.Ohm => (-4, 12),      // 0.01 Ω to 10 GΩ
            Unit.Farad => (-15, 12),   // 0.1 pF to 0.1 F
            Unit.Henry => (-9, 9),     // 100 nH to 100 H
            Unit.Volt => (-4, 6),      // 10 mV to 10 kV
            Unit.Watt => (-4, 5),
            _ => (-7, 7),
        };
        return (Numeral.Scale(m.ToString(System.Globalization.CultureInfo.InvariantCulture), low + d % (decades + 1)), unit);
    });

    [Fact]
    public void Print_then_parse_gives_the_value_back_in_every_notation() =>
        Gen.Select(TradeValue, Gen.Enum<NotationStyle>()).Sample((v, style) =>
        {
            var text = Notation.Print(v.Value, v.Unit, style);
            var habit = style == NotationStyle.OldThousand ? MegHabit.Thousand : MegHabit.Unknown;
            Assert.True(Notation.TryParse(text, v.Unit, out var back, out var complaint, habit), $"{text}: {complaint}");
            Assert.True(Math.Abs(back / v.Value - 1) < 1e-12, $"{v.Value:R} → {text} → {back:R}");
        }, iter: 20_000);

    [Fact]
    public void Every_E192_value_of_every_decade_comes_back_exactly()
    {
        foreach (var style in Enum.GetValues<NotationStyle>())
            foreach (var value in PreferredValues.Within(1e-13, 9e-3, PreferredSeries.E192))
            {
                var text = Notation.Print(value, Unit.Farad, style);
                Assert.True(Notation.TryParse(text, Unit.Farad, out var back, out _), text);
                Assert.Equal(value, back);
            }
    }

    /// <summary>Source: common practice, no source.</summary>
    [Theory]
    [InlineData("47K", Unit.Ohm, 47e3)]
    [InlineData("4K7", Unit.Ohm, 4700)]
    [InlineData("4.7 kΩ", Unit.Ohm, 4700)]
    [InlineData("4,7 kΩ", Unit.Ohm, 4700)]
    [InlineData("R47", Unit.Ohm, 0.47)]
    [InlineData("1 Meg", Unit.Ohm, 1e6)]
    [InlineData("1M", Unit.Ohm, 1e6)]
    [InlineData("27,000", Unit.Ohm, 27000)]
    [InlineData("1500", Unit.Ohm, 1500)]
    [InlineData("½ meg", Unit.Ohm, 5e5)]
    [InlineData("1/4 MEG", Unit.Ohm, 2.5e5)]
    [InlineData(".02 MFD", Unit.Farad, 2e-8)]
    [InlineData("250 µµF", Unit.Farad, 2.5e-10)]
    [InlineData("4n7", Unit.Farad, 4.7e-9)]
    [InlineData("µ47", Unit.Farad, 4.7e-7)]
    [InlineData("500 cm", Unit.Farad, 556.325e-12)]
    [InlineData("400", Unit.Volt, 400)]
    [InlineData("1.5 KV", Unit.Volt, 1500)]
    [InlineData("-1.3", Unit.Volt, -1.3)]
    [InlineData("−1.3 V", Unit.Volt, -1.3)]
    [InlineData("1/2W", Unit.Watt, 0.5)]
    [InlineData("120 mA", Unit.Ampere, 0.12)]
    [InlineData("2.5 mH", Unit.Henry, 2.5e-3)]
    [InlineData("8 HY", Unit.Henry, 8)]
    public void Parses_what_people_write(string text, Unit unit, double value)
    {
        Assert.True(Notation.TryParse(text, unit, out var read, out var complaint), complaint?.ToString());
        Assert.Equal(value, read, Math.Abs(value) * 1e-12);
        Assert.Null(complaint);
    }

    [Fact]
    public void The_habit_decides_what_M_is()
    {
        Assert.True(Notation.TryParse("250M", Unit.Ohm, out var thousand, out _, MegHabit.Thousand));
        Assert.True(Notation.TryParse("250M", Unit.Ohm, out var million, out _));
        Assert.Equal((250e3, 250e6), (thousand, million));
    }

    [Theory]
    [InlineData("", Unit.Ohm, 0)]
    [InlineData("K", Unit.Ohm, 0)]
    [InlineData("4k7k", Unit.Ohm, 3)]
    [InlineData("47 MFD", Unit.Ohm, 3)]
    [InlineData("1..5", Unit.Ohm, 2)]
    [InlineData("-5K", Unit.Ohm, 0)]
    [InlineData("5 V", Unit.Watt, 2)]
    [InlineData("1/0", Unit.Ohm, 2)]
    [InlineData("400 V 5", Unit.Volt, 6)]
    public void What_is_no_value_gets_a_complaint_with_its_place(string text, Unit unit, int at)
    {
        Assert.False(Notation.TryParse(text, unit, out var value, out var complaint));
        Assert.Equal(0, value);
        Assert.Equal(at, complaint!.At);
        Assert.NotEmpty(complaint.Remedy);
    }

    [Fact]
    public void Parsing_never_throws() =>
        Gen.Select(Gen.String[Gen.Char[" 0123456789.,kKMGTRpnµΩVWAmHuF/½-+E?"], 0, 14], Gen.Enum<Unit>()).Sample((text, unit) =>
        {
            var ok = Notation.TryParse(text, unit, out var value, out var complaint);
            return ok ? complaint is null && double.IsFinite(value) : complaint is not null && complaint.At >= 0 && complaint.At <= text.Length;
        }, iter: 20_000);
}
