using System.Globalization;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Markings.Colours;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: data/reference/colour-codes.csv, each row with its own source, which every failure shows.</summary>
public class ReferenceRowsTests
{
    // The only one of the file's families that is recalled without any reading.
    private const string NotCertain = "mica-button";

    public static TheoryData<string> Ids(string record) => [.. ColourRow.Of(record).Select((r, i) => r.Id.Length > 0 ? r.Id : r["family"])];

    private static ColourRow Row(string id) => ColourRow.All.Single(r => r.Id == id);

    [Fact]
    public void The_file_has_rows_of_every_record()
    {
        Assert.Equal(["ambiguity-rule", "ambiguous-example", "colour", "example", "invalid-example", "layout"], ColourRow.All.Select(r => r.Record).Distinct().Order());
        Assert.True(ColourRow.All.Length > 350);
    }

    [Theory, MemberData(nameof(Ids), "layout")]
    public void Each_layout_is_a_family_with_as_many_places(string family)
    {
        var row = ColourRow.Of("layout").Single(r => r["family"] == family);
        var layout = CodeLayouts.Find(family);
        Assert.True(layout is not null, $"no family {family}; source: {row.Source}");
        Assert.Contains(ColourCodes.Families, f => f.Id == family);
        if (family == NotCertain) return;
        var words = row.Marking.Split(' ').Where(w => w != "[gap]").ToList();
        var most = words.Count;
        var least = words.Count(w => w[0] != '[');
        Assert.True(layout.Forms.Max(f => f.Slots.Length) == most, row.Source);
        Assert.True(layout.Forms.Min(f => f.Slots.Length) == least, row.Source);
    }

    [Theory, MemberData(nameof(Ids), "colour")]
    public void Each_colour_means_what_the_row_says_and_nothing_else(string id)
    {
        var row = Row(id);
        foreach (var family in row.Families)
        {
            var table = CodeLayouts.Find(family)!.Table;
            var colour = Enum.Parse<Colour>(row["colour"], ignoreCase: true);
            var has = table[colour] ?? new(colour);
            Check(row.Number("digit"), has.Figure, "digit");
            Check(row.Number("multiplier"), has.Exponent is { } e ? double.Parse($"1e{e}", CultureInfo.InvariantCulture) : null, "multiplier");
            Check(row.Number("tolerance_pct"), has.Percent, "tolerance");
            Check(row.Number("tolerance_pf"), has.Picofarads, "tolerance in pF");
            // Nine-dot parts share the table of the six-dot ones and have volts on the back.
            if (!family.Contains("-6", StringComparison.Ordinal) || family == "mica-rma-6") Check(row.Number("voltage_v"), has.Volts, "volts");
            if (row["characteristic"].Length > 0 || family is "mica-eia-6" or "mica-mil-6" or "paper-mil-6")
            {
                Assert.True((has.Class ?? "") == row["characteristic"], $"{id} class; source: {row.Source}");
                foreach (var number in row["tempco_ppm"].Split(' ', '-', '+').Where(n => n.Length > 0 && n != "to"))
                    Assert.True(has.ClassWords!.Contains(number, StringComparison.Ordinal), $"{id} tempco {number}; source: {row.Source}");
            }
            else if (family is "resistor-6band" or "ceramic-5")
            {
                Check(row.Number("tempco_ppm"), has.Tempco, "tempco");
            }

            void Check(double? expected, double? actual, string what) =>
                Assert.True(expected == actual, $"{family} {row["colour"]} {what}: the row says {expected}, the table {actual}; source: {row.Source}");
        }
    }

    [Theory, MemberData(nameof(Ids), "example")]
    public void Each_example_reads_first_when_its_code_is_named(string id)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking, new() { ColourCode = row["family"] });
        Assert.True(result.Best is not null, $"{row}: {result.Complaint}; source: {row.Source}");
        AssertIs(row, result.Best);
    }

    [Theory, MemberData(nameof(Ids), "example")]
    public void Each_example_reads_first_when_only_the_kind_of_part_is_known(string id)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking, new() { Kind = KindOf(row) });
        Assert.True(result.Best is not null, $"{row}: {result.Complaint}; source: {row.Source}");
        AssertSameValue(row, result.Best);
    }

    [Theory, MemberData(nameof(Ids), "example")]
    public void Each_example_is_among_the_meanings_when_nothing_is_known(string id)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking);
        Assert.True(result.Meanings.Any(m => m.Unit == UnitOf(row) && Near(m.Value, row.Value)),
            $"{row}: {string.Join("; ", result.Meanings.Select(m => $"{m.Value} {m.Unit} {m.Share:0.000}"))} {result.Complaint}; source: {row.Source}");
        Assert.True(result.Meanings.Length <= 8, $"{row}: {result.Meanings.Length} meanings are a flood");
        Assert.Equal(1, result.Meanings.Sum(m => m.Share), 9);
    }

    [Theory, MemberData(nameof(Ids), "ambiguous-example")]
    public void Each_ambiguous_example_prefers_what_the_row_prefers(string id)
    {
        var row = Row(id);
        // A-12 stands under the RMA code, but prefers the military one: only the kind leads there.
        MarkingContext byKind = new() { Kind = KindOf(row) };
        foreach (var context in id == "A-12" ? [byKind] : new[] { byKind with { Kind = null, ColourCode = row["family"] }, byKind })
        {
            var result = ColourMarking.Read(row.Marking, context);
            Assert.True(result.Best is not null, $"{row}: {result.Complaint}; source: {row.Source}");
            if (row["value"].Length == 0) Assert.True(result.Best.Share < 0.5, $"{row} has no preferred reading; source: {row.Source}");
            else AssertSameValue(row, result.Best);
        }
    }

    /// <summary>Source: column "alternatives" of the same rows; a reading in no series or of an impossible size is left out or far behind.</summary>
    [Theory]
    [InlineData("A-01", 120.0)]
    [InlineData("A-02", 10000.0)]
    [InlineData("A-04", 110000.0)]
    [InlineData("A-09", 1200.0)]
    [InlineData("A-10", 210.0, 1100.0)]
    [InlineData("A-15", 220e-12)]
    [InlineData("A-16", 200e-12)]
    [InlineData("A-17", 250e-12)]
    [InlineData("A-18", 100e-12)]
    [InlineData("A-19", 100e-12)]
    [InlineData("A-22", 0.4e-6)]
    public void The_alternatives_of_ambiguous_examples_are_offered(string id, params double[] values)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking, new() { Kind = KindOf(row) });
        Assert.All(values, v => Assert.True(result.Meanings.Count(m => Near(m.Value, v)) >= (row["value"].Length > 0 && Near(v, row.Value) ? 2 : 1),
            $"{row}: {v} is not offered among {string.Join("; ", result.Meanings.Select(m => m.Value))}; source: {row.Source}"));
    }

    /// <summary>Source: column "alternatives", where it says that the other reading is in no series, impossible or not valid.</summary>
    [Theory]
    [InlineData("A-03", 11600.0)]
    [InlineData("A-07", 170000.0)]
    [InlineData("A-08", 23000.0)]
    [InlineData("A-14", 1.1e-6)]
    [InlineData("A-20", 747.0)]
    [InlineData("A-21", 473e9)]
    public void Rejected_alternatives_are_far_behind(string id, double value)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking, new() { Kind = KindOf(row) });
        Assert.True(result.Meanings.Where(m => Near(m.Value, value)).Sum(m => m.Share) < 0.02, $"{row}; source: {row.Source}");
    }

    [Theory, MemberData(nameof(Ids), "invalid-example")]
    public void Each_invalid_example_is_a_complaint_about_one_of_its_colours(string id)
    {
        var row = Row(id);
        var result = ColourMarking.Read(row.Marking, new() { ColourCode = row["family"] });
        Assert.True(result.Complaint is not null, $"{row} reads {result.Best?.Value}, but: {row["notes"]}; source: {row.Source}");
        Assert.NotEmpty(result.Complaint.Remedy);
        var at = result.Complaint.At;
        Assert.True(id == "X-06" ? at == row.Marking.Length : at == 0 || row.Marking[at - 1] == ' ', $"{row}: caret at {at}; source: {row.Source}");
    }

    /// <summary>Source: the notes of the rows X-01 to X-16, which name the colour that is wrong.</summary>
    [Theory]
    [InlineData("X-01", "gold")]
    [InlineData("X-02", "silver")]
    [InlineData("X-03", "black")]
    [InlineData("X-04", "white")]
    [InlineData("X-05", "black", 3)]
    [InlineData("X-07", "gold")]
    [InlineData("X-08", "gold")]
    [InlineData("X-09", "violet")]
    [InlineData("X-10", "black")]
    [InlineData("X-11", "green")]
    [InlineData("X-12", "violet")]
    [InlineData("X-13", "black", 4)]
    [InlineData("X-14", "silver")]
    [InlineData("X-15", "gold")]
    [InlineData("X-16", "pink")]
    public void The_caret_stands_under_the_colour_that_is_wrong(string id, string colour, int word = -1)
    {
        var row = Row(id);
        var complaint = ColourMarking.Read(row.Marking, new() { ColourCode = row["family"] }).Complaint!;
        Assert.StartsWith(colour, row.Marking[complaint.At..], StringComparison.Ordinal);
        if (word >= 0) Assert.Equal(word, row.Marking[..complaint.At].Count(c => c == ' '));
    }

    private static void AssertIs(ColourRow row, Meaning meaning)
    {
        AssertSameValue(row, meaning);
        var expected = row.Number("tolerance_pct") / 100 ?? row.Number("tolerance_pf") * 1e-12 / row.Value;
        Assert.True(expected is null ? meaning.Tolerance is null : meaning.Tolerance is { } t && Near(t.Plus, expected.Value) && Near(t.Minus, Math.Min(1, expected.Value)),
            $"{row}: tolerance {meaning.Tolerance}, expected {expected}; source: {row.Source}");
        Assert.True(meaning.RatedVolts == row.Number("voltage_v"), $"{row}: {meaning.RatedVolts} V; source: {row.Source}");
        Assert.True((meaning.Dielectric ?? "") == row["characteristic"], $"{row}: class {meaning.Dielectric}; source: {row.Source}");
        if (row["characteristic"].Length == 0) Assert.True(meaning.TempcoPpm == row.Number("tempco_ppm"), $"{row}: {meaning.TempcoPpm} ppm; source: {row.Source}");
    }

    private static void AssertSameValue(ColourRow row, Meaning meaning) =>
        Assert.True(meaning.Unit == UnitOf(row) && Near(meaning.Value, row.Value), $"{row}: {meaning.Value} {meaning.Unit} by {meaning.Code}; source: {row.Source}");

    private static Unit UnitOf(ColourRow row) => row.IsOhm || row["family"].StartsWith("resistor", StringComparison.Ordinal) ? Unit.Ohm : Unit.Farad;
    private static bool Near(double a, double b) => Math.Abs(a - b) <= 1e-12 * Math.Abs(b);

    private static PartKind KindOf(ColourRow row) => row["family"].Split('-')[0] switch
    {
        "resistor" => PartKind.Resistor,
        "mica" => PartKind.Mica,
        "ceramic" => PartKind.Ceramic,
        "paper" => PartKind.Paper,
        "film" => PartKind.Film,
        _ => PartKind.Capacitor,
    };
}
