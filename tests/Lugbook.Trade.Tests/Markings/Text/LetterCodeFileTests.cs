using System.Globalization;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: data/reference/letter-codes.csv, every row; its own source column says where each comes from (IEC 60062, EIA RS-198, restorers' pages).</summary>
public class LetterCodeFileTests
{
    private static readonly IReadOnlyList<ReferenceRows.ReferenceRow> All = ReferenceRows.Of("letter-codes.csv");

    private static IEnumerable<ReferenceRows.ReferenceRow> Rows(string record) => All.Where(r => r["record"] == record);

    private static TheoryData<string> Codes(string record) => [.. Rows(record).Select((r, i) => i.ToString(CultureInfo.InvariantCulture) + " " + r["code"])];

    private static ReferenceRows.ReferenceRow Row(string record, string key) =>
        Rows(record).ElementAt(int.Parse(key.Split(' ')[0], CultureInfo.InvariantCulture));

    private static MarkingContext As(string kind) => new()
    {
        Kind = kind.StartsWith("resistor", StringComparison.Ordinal) ? PartKind.Resistor : kind.StartsWith("ceramic", StringComparison.Ordinal) ? PartKind.Ceramic : PartKind.Capacitor,
    };

    private static double[] Base(string values, string unit) =>
        [.. values.Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture) * (unit == "pF" ? 1e-12 : 1))];

    public static TheoryData<string> Examples => Codes("example");
    public static TheoryData<string> Ambiguous => Codes("ambiguous-example");
    public static TheoryData<string> Invalid => Codes("invalid-example");
    public static TheoryData<string> ValueLetters => Codes("value-letter");
    public static TheoryData<string> ToleranceLetterRows => Codes("tolerance-letter");
    public static TheoryData<string> ThirdDigits => Codes("third-digit");
    public static TheoryData<string> VoltageCodeRows => Codes("voltage-code");
    public static TheoryData<string> Class1Names => Codes("class1-name");
    public static TheoryData<string> Class2Names => Codes("class2-name");
    public static TheoryData<string> BritishFirst => Codes("uk-ceramic-first-letter");
    public static TheoryData<string> BritishSecond => Codes("uk-ceramic-second-letter");
    public static TheoryData<string> UnitSpellingRows => Codes("unit-spelling");
    public static TheoryData<string> VoltageSpellings => Codes("voltage-spelling");

    [Fact]
    public void The_file_is_there_with_all_its_sorts_of_rows()
    {
        Assert.True(All.Count > 390, $"{All.Count} rows");
        Assert.True(Rows("example").Count() >= 90);
        Assert.Equal(16, Rows("ambiguous-example").Count());
        Assert.Equal(16, Rows("invalid-example").Count());
    }

    private static void AssertReads(ReferenceRows.ReferenceRow row, Meaning meaning)
    {
        var values = Base(row["value"], row["unit"]);
        Assert.Equal(row["unit"] == "ohm" ? Unit.Ohm : Unit.Farad, meaning.Unit);
        Assert.Equal(values.Length, meaning.Sections.Length);
        foreach (var (wanted, section) in values.Zip(meaning.Sections)) Assert.Equal(1, section.Value / wanted, 3e-4);
        if (row["voltage_v"].Length > 0)
        {
            var volts = Base(row["voltage_v"], "V");
            for (var i = 0; i < values.Length; i++) Assert.Equal(volts[Math.Min(i, volts.Length - 1)], meaning.Sections[i].RatedVolts);
        }
        if (row.NumberOrNull("tol_minus_pct") is { } minus)
        {
            Assert.Equal(-minus / 100, meaning.Tolerance!.Value.Minus, 1e-9);
            Assert.Equal(row.Number("tol_plus_pct") / 100, meaning.Tolerance!.Value.Plus, 1e-9);
        }
        if (row.NumberOrNull("tol_pf") is { } pico) Assert.Equal(pico * 1e-12 / values[0], meaning.Tolerance!.Value.Plus, 1e-9);
        if (row.NumberOrNull("power_w") is { } watts) Assert.Equal(watts, meaning.RatedWatts);
        if (row.NumberOrNull("tempco_ppm") is { } ppm) Assert.Equal(ppm, meaning.TempcoPpm);
    }

    [Theory, MemberData(nameof(Examples))]
    public void An_example_reads_as_its_row_says(string key)
    {
        var row = Row("example", key);
        var result = TextMarking.Read(row["code"], As(row["kind"]));
        Assert.Null(result.Complaint);
        AssertReads(row, result.Best!);
        if (row["notes"].Contains("AC rating", StringComparison.Ordinal)) Assert.True(result.Best!.VoltsAreAc);
        if (row["notes"].Contains("class X2", StringComparison.Ordinal)) Assert.Equal(SafetyClass.X2, result.Best!.SafetyClass);
        if (row["notes"].Contains("class Y2", StringComparison.Ordinal)) Assert.Equal(SafetyClass.Y2, result.Best!.SafetyClass);
    }

    [Theory, MemberData(nameof(Examples))]
    public void An_example_is_among_the_meanings_even_when_the_kind_is_not_known(string key)
    {
        var row = Row("example", key);
        var meanings = TextMarking.Read(row["code"]).Meanings;
        var values = Base(row["value"], row["unit"]);
        var unit = row["unit"] == "ohm" ? Unit.Ohm : Unit.Farad;
        Assert.Contains(meanings, m => m.Unit == unit && m.Sections.Length == values.Length && Math.Abs(m.Value / values[0] - 1) < 3e-4);
    }

    [Theory, MemberData(nameof(Ambiguous))]
    public void An_ambiguous_example_gives_the_preferred_reading_first_and_the_others_too(string key)
    {
        var row = Row("ambiguous-example", key);
        var result = TextMarking.Read(row["code"], As(row["kind"]));
        Assert.Null(result.Complaint);
        AssertReads(row, result.Best!);
        Assert.Equal(1, result.Meanings.Sum(m => m.Share), 1e-9);
        Assert.All(result.Meanings, m => Assert.True(m.Reason.Length > 10 && m.Reason.EndsWith('.')));
        foreach (var other in Others(row["code"]))
            Assert.Contains(result.Meanings, m => m.Unit == other.Unit && Math.Abs(m.Value / other.Value - 1) < 1e-6);
    }

    // The alternatives column in numbers; the rows for 0.25 MFD TEST and 2000 have no second value.
    private static IEnumerable<(Unit Unit, double Value)> Others(string code) => code switch
    {
        "250M OHM" => [(Unit.Ohm, 2.5e8)],
        "1M" => [(Unit.Ohm, 1e3)],
        "50M" => [(Unit.Ohm, 5e7)],
        "10M" => [(Unit.Ohm, 1e4)],
        "470M" => [(Unit.Ohm, 4.7e8)],
        "1m" => [(Unit.Farad, 1e-3)],
        "330" => [(Unit.Farad, 33e-12)],
        "471" => [(Unit.Farad, 471e-12)],
        "5K" => [(Unit.Farad, 5e-12)],
        "1K" => [(Unit.Farad, 1e-6), (Unit.Farad, 1e-12)],
        "M1" => [(Unit.Ohm, 1e5)],
        "10k" => [(Unit.Ohm, 1e4)],
        "25 25V" => [(Unit.Farad, 25e-12)],
        _ => [],
    };

    [Fact]
    public void Test_volts_are_no_rating()
    {
        var best = TextMarking.Read("0.25 MFD 1000 V TEST").Best!;
        Assert.Null(best.RatedVolts);
        Assert.Contains(best.Doubts, d => d.Contains("test volts", StringComparison.Ordinal) && d.Contains("500 V", StringComparison.Ordinal));
    }

    [Theory, MemberData(nameof(Invalid))]
    public void An_invalid_example_is_a_complaint_with_a_place_and_a_remedy(string key)
    {
        var row = Row("invalid-example", key);
        var result = TextMarking.Read(row["code"]);
        Assert.Empty(result.Meanings);
        Assert.NotNull(result.Complaint);
        Assert.InRange(result.Complaint.At, 0, row["code"].Length);
        Assert.True(result.Complaint.Problem.Length > 5 && result.Complaint.Remedy.Length > 5);
        Assert.Equal(row["code"], result.Complaint.Text);
    }

    /// <summary>Source: the places follow from each row's reason.</summary>
    [Theory]
    [InlineData("500V", 0)]
    [InlineData("K", 0)]
    [InlineData("4K7K7", 3)]
    [InlineData("1..5K", 2)]
    [InlineData("-5K", 0)]
    [InlineData("0 MFD", 0)]
    [InlineData("47Q", 2)]
    [InlineData("473J 0V", 5)]
    [InlineData("12345678 MFD", 0)]
    [InlineData("1/0 MEG", 2)]
    [InlineData("MFD .05 MFD .1", 12)]
    [InlineData("10 MEG MFD", 7)]
    [InlineData("477", 2)]
    [InlineData("5A104", 0)]
    [InlineData("", 0)]
    [InlineData("???", 0)]
    public void The_complaint_points_at_the_first_character_that_does_not_fit(string marking, int at) =>
        Assert.Equal(at, TextMarking.Read(marking).Complaint!.At);

    [Theory, MemberData(nameof(ValueLetters))]
    public void A_value_letter_stands_in_the_place_of_the_point(string key)
    {
        var row = Row("value-letter", key);
        var unit = row["kind"] == "resistor" ? Unit.Ohm : Unit.Farad;
        var wanted = Base(row["value"], row["unit"])[0] * 4.7;
        var result = TextMarking.Read($"4{row["code"]}7", As(row["kind"]));
        // The lower-case m of the standard is micro on an old part: milli is offered, not preferred.
        // T is a thousand (Tausend) rather than a million million ohms, which no such set has.
        if (row["code"] is "m" or "T") Assert.Contains(result.Meanings, m => m.Unit == unit && Math.Abs(m.Value / wanted - 1) < 1e-9);
        else Assert.True(result.Best!.Unit == unit && Math.Abs(result.Best.Value / wanted - 1) < 1e-9, Notation.Print(result.Best.Value, result.Best.Unit));
    }

    [Theory, MemberData(nameof(ToleranceLetterRows))]
    public void A_tolerance_letter_means_what_its_row_says(string key)
    {
        var row = Row("tolerance-letter", key);
        // Ours: after a number V and W are volts and watts (103V, 10K5W). As tolerances they are read where no number stands directly before them.
        if (row["code"] is "V" or "W")
        {
            var letter = Lugbook.Trade.Markings.Text.ToleranceLetters.Of(row["code"][0], row["kind"].StartsWith("capacitor", StringComparison.Ordinal) ? Unit.Farad : Unit.Ohm, row["kind"].StartsWith("capacitor", StringComparison.Ordinal) ? 1e-8 : 4700)!.Value;
            Assert.Equal(-row.Number("tol_minus_pct") / 100, letter.Minus, 1e-9);
            Assert.Equal(row.Number("tol_plus_pct") / 100, letter.Plus, 1e-9);
            return;
        }
        var (marking, kind, value) = row["kind"] switch
        {
            "capacitor of 10 pF and less" => ("2p2" + row["code"], "capacitor", 2.2e-12),
            "capacitor, asymmetric" => ("103" + row["code"], "capacitor", 1e-8),
            _ => ("4K7" + row["code"], "resistor", 4700.0),
        };
        var meaning = TextMarking.Read(marking, As(kind)).Meanings.FirstOrDefault(m => m.Tolerance is not null && Math.Abs(m.Value / value - 1) < 1e-9);
        // B and C after a resistor's value can be a control's taper too; as tolerances they are checked on a fixed capacitor.
        if (kind == "resistor" && row["code"] is "B" or "C") meaning = TextMarking.Read("103" + row["code"], As("capacitor")).Best;
        Assert.NotNull(meaning);
        if (row.NumberOrNull("tol_pf") is { } pico)
        {
            Assert.Equal(Math.Min(1, pico / 2.2), meaning.Tolerance!.Value.Minus, 1e-9);
            Assert.Equal(pico / 2.2, meaning.Tolerance!.Value.Plus, 1e-9);
        }
        else
        {
            Assert.Equal(-row.Number("tol_minus_pct") / 100, meaning.Tolerance!.Value.Minus, 1e-9);
            Assert.Equal(row.Number("tol_plus_pct") / 100, meaning.Tolerance!.Value.Plus, 1e-9);
        }
    }

    [Theory, MemberData(nameof(ThirdDigits))]
    public void The_third_digit_counts_the_noughts(string key)
    {
        var row = Row("third-digit", key);
        var wanted = 47 * row.Number("value") * 1e-12;
        Assert.Contains(TextMarking.Read("47" + row["code"], As("capacitor")).Meanings, m => m.Unit == Unit.Farad && m.Code == "three-digit code" && Math.Abs(m.Value / wanted - 1) < 1e-9);
    }

    [Theory, MemberData(nameof(VoltageCodeRows))]
    public void A_voltage_code_gives_its_volts(string key)
    {
        var row = Row("voltage-code", key);
        var best = TextMarking.Read(row["code"] + "104K", As("capacitor")).Best!;
        Assert.Equal(row.Number("voltage_v"), best.RatedVolts!.Value, 1e-9);
        Assert.Equal(1e-7, best.Value, 1e-15);
    }

    [Theory, MemberData(nameof(Class1Names))]
    public void A_class_1_name_gives_its_temperature_coefficient(string key)
    {
        var row = Row("class1-name", key);
        foreach (var name in row["alternatives"].Split(';', StringSplitOptions.TrimEntries).Append(row["code"]))
            Assert.Equal(row.Number("tempco_ppm"), TextMarking.Read("100 pF " + name, As("ceramic")).Best!.TempcoPpm);
    }

    [Theory, MemberData(nameof(Class2Names))]
    public void A_class_2_name_is_kept(string key)
    {
        var row = Row("class2-name", key);
        Assert.Equal(row["code"], TextMarking.Read("4700 pF " + row["code"]).Best!.Dielectric);
        Assert.Equal(row["code"], TextMarking.Read(row["code"] + " 103M 50V").Best!.Dielectric);
    }

    /// <summary>Source: the three characters are independent; EIA RS-198.</summary>
    [Fact]
    public void Every_class_2_name_that_the_rows_can_build_is_known()
    {
        foreach (var low in Rows("class2-low"))
            foreach (var high in Rows("class2-high"))
                foreach (var change in Rows("class2-change"))
                {
                    var name = low["code"] + high["code"] + change["code"];
                    Assert.Equal(name, TextMarking.Read("4700 pF " + name).Best?.Dielectric);
                }
    }

    /// <summary>Source: figure times multiplier; EIA RS-198.</summary>
    [Fact]
    public void Every_class_1_name_that_the_rows_can_build_gives_figure_times_multiplier()
    {
        foreach (var figure in Rows("class1-figure"))
            foreach (var multiplier in Rows("class1-multiplier"))
                foreach (var tolerance in Rows("class1-tolerance"))
                {
                    var name = figure["code"] + multiplier["code"] + tolerance["code"];
                    var best = TextMarking.Read("100 pF " + name, As("ceramic")).Best;
                    Assert.True(best?.TempcoPpm is not null, name);
                    Assert.Equal(figure.Number("tempco_ppm") * multiplier.Number("tempco_ppm"), best!.TempcoPpm!.Value, 1e-6);
                }
    }

    [Theory, MemberData(nameof(BritishFirst))]
    public void The_first_letter_of_an_old_British_ceramic_is_its_tolerance(string key)
    {
        var row = Row("uk-ceramic-first-letter", key);
        var meaning = TextMarking.Read("150" + row["code"] + "L", As("ceramic")).Meanings.First(m => m.Code == "old British ceramic");
        Assert.Equal(1.5e-10, meaning.Value, 1e-18);
        if (row.NumberOrNull("tol_pf") is { } pico) Assert.Equal(pico / 150, meaning.Tolerance!.Value.Plus, 1e-9);
        else
        {
            Assert.Equal(-row.Number("tol_minus_pct") / 100, meaning.Tolerance!.Value.Minus, 1e-9);
            Assert.Equal(row.Number("tol_plus_pct") / 100, meaning.Tolerance!.Value.Plus, 1e-9);
        }
    }

    [Theory, MemberData(nameof(BritishSecond))]
    public void The_second_letter_of_an_old_British_ceramic_is_its_temperature_coefficient(string key)
    {
        var row = Row("uk-ceramic-second-letter", key);
        var best = TextMarking.Read("150J" + row["code"], As("ceramic")).Best!;
        Assert.Equal(row.Number("tempco_ppm"), best.TempcoPpm);
        Assert.Equal(1.5e-10, best.Value, 1e-18);
    }

    [Theory, MemberData(nameof(UnitSpellingRows))]
    public void A_unit_spelling_means_what_its_row_says(string key)
    {
        var row = Row("unit-spelling", key);
        var unit = row["unit"] == "ohm" ? Unit.Ohm : Unit.Farad;
        var wanted = Base(row["value"], row["unit"])[0] * 2;
        foreach (var gap in new[] { " ", "" })
        {
            var result = TextMarking.Read("2" + gap + row["code"], As(row["kind"]));
            // M has two rows that contradict each other by design; K and F after a bare number are also tolerance letters.
            if (row["code"] is "M" or "F") Assert.Contains(result.Meanings, m => m.Unit == unit && Math.Abs(m.Value / wanted - 1) < 1e-4);
            else Assert.True(result.Best is { } b && b.Unit == unit && Math.Abs(b.Value / wanted - 1) < 1e-4, $"2{gap}{row["code"]}: {result.Complaint}");
        }
    }

    [Theory, MemberData(nameof(VoltageSpellings))]
    public void A_voltage_spelling_rates_the_part_unless_it_is_peak_or_test(string key)
    {
        var row = Row("voltage-spelling", key);
        foreach (var gap in new[] { " ", "" })
        {
            var best = TextMarking.Read(".1 MFD 400" + gap + row["code"]).Best!;
            Assert.Equal(row["code"] is "PV" or "V TEST" ? null : 400.0, best.RatedVolts);
            Assert.Equal(row["code"] is "VAC" or "V~", best.VoltsAreAc);
        }
    }
}
