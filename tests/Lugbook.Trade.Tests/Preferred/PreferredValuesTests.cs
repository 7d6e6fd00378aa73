using CsCheck;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Tests.Markings.Text;

namespace Lugbook.Trade.Tests.Preferred;

/// <summary>Source: IEC 60063, through data/reference/preferred-values.csv, every row; the old-* rows are common practice, no source.</summary>
public class PreferredValuesTests
{
    private static readonly IReadOnlyList<ReferenceRows.ReferenceRow> All = ReferenceRows.Of("preferred-values.csv");

    public static TheoryData<string> OldLists => [.. All.Select(r => r["list"]).Where(l => l.StartsWith("old-", StringComparison.Ordinal)).Distinct()];

    [Theory]
    [InlineData(PreferredSeries.E3)]
    [InlineData(PreferredSeries.E6)]
    [InlineData(PreferredSeries.E12)]
    [InlineData(PreferredSeries.E24)]
    [InlineData(PreferredSeries.E48)]
    [InlineData(PreferredSeries.E96)]
    [InlineData(PreferredSeries.E192)]
    public void A_series_is_the_published_list(PreferredSeries series)
    {
        var rows = All.Where(r => r["list"] == series.ToString()).OrderBy(r => r.Number("index")).ToList();
        Assert.Equal((int)series, rows.Count);
        Assert.Equal(rows.Select(r => r.Number("value")), PreferredValues.Decade(series));
    }

    [Fact]
    public void The_exceptions_are_where_the_file_says_that_the_formula_fails()
    {
        foreach (var row in All.Where(r => r["list"].StartsWith('E')))
        {
            var series = Enum.Parse<PreferredSeries>(row["list"]);
            var digits = series <= PreferredSeries.E24 ? 1 : 2;
            var formula = Math.Round(Math.Pow(10, row.Number("index") / (int)series), digits, MidpointRounding.AwayFromZero);
            Assert.Equal(row["differs_from_formula"] == "yes", formula != PreferredValues.Decade(series)[(int)row.Number("index")]);
        }
    }

    [Theory, MemberData(nameof(OldLists))]
    public void An_old_value_takes_todays_nearest_as_its_row_says(string list)
    {
        foreach (var row in All.Where(r => r["list"] == list))
        {
            var value = row.Number("value");
            Assert.True(OldValues.IsMade(value, row["unit"] == "ohm" ? Unit.Ohm : Unit.Farad), row["value"]);
            if (!Enum.TryParse<PreferredSeries>(row["nearest_series"], out var series)) continue;   // controls stay in their own steps
            // Electrolytics: the nearest inside -10 +100 %, as the file's head says.
            var nearest = list == "old-electrolytic-capacitor" ? PreferredValues.NearestWithin(value, Tolerance.Between(0.1, 1), series)!.Value : PreferredValues.Nearest(value, series);
            Assert.Equal(1, nearest / row.Number("nearest_modern"), 1e-9);
            Assert.Equal(row.Number("deviation_pct"), (nearest / value - 1) * 100, 0.0501);
        }
    }

    /// <summary>Source: common practice, no source.</summary>
    [Fact]
    public void A_paper_capacitor_marked_005_takes_todays_0047()
    {
        var modern = PreferredValues.Nearest(.005e-6, PreferredSeries.E6);
        Assert.Equal(.0047e-6, modern);
        Assert.True(Tolerance.Percent(20).Holds(.005e-6, modern));
        Assert.Equal("4700 pF", Notation.Print(modern, Unit.Farad));
        Assert.Equal("−6 %", Notation.PrintDeviation(modern, .005e-6));
    }

    [Fact]
    public void Equally_near_by_ratio_resolves_to_the_lower()
    {
        Assert.Equal(1.0, PreferredValues.Nearest(Math.Sqrt(1.0 * 1.5), PreferredSeries.E6));
        Assert.Equal(1.5, PreferredValues.Nearest(Math.Sqrt(1.0 * 1.5) * 1.0001, PreferredSeries.E6));
        Assert.Equal(6.8, PreferredValues.Nearest(Math.Sqrt(68), PreferredSeries.E6));   // across the decade
    }

    [Fact]
    public void Within_includes_its_ends_and_crosses_decades()
    {
        Assert.Equal([680, 820, 1000, 1200], PreferredValues.Within(680, 1200, PreferredSeries.E12));
        Assert.Empty(PreferredValues.Within(690, 810, PreferredSeries.E12));
        Assert.Empty(PreferredValues.Within(1200, 680, PreferredSeries.E12));
        Assert.Equal(24 * 3 + 1, PreferredValues.Within(1e-9, 1e-6, PreferredSeries.E24).Length);
    }

    [Fact]
    public void Nothing_may_be_inside_a_narrow_window() =>
        Assert.Null(PreferredValues.NearestWithin(8, Tolerance.Percent(5), PreferredSeries.E6));

    [Fact]
    public void Contains_knows_its_own_and_no_others()
    {
        foreach (var series in Enum.GetValues<PreferredSeries>())
            Assert.All(PreferredValues.Within(1e-12, 9e-3, series), v => Assert.True(PreferredValues.Contains(v, series)));
        Assert.False(PreferredValues.Contains(5000, PreferredSeries.E24));
        Assert.False(PreferredValues.Contains(9.19, PreferredSeries.E192));
        Assert.True(PreferredValues.Contains(9.20, PreferredSeries.E192));
        Assert.False(PreferredValues.Contains(0, PreferredSeries.E24));
        Assert.False(PreferredValues.Contains(double.NaN, PreferredSeries.E24));
        Assert.False(PreferredValues.Contains(-47, PreferredSeries.E24));
    }

    [Fact]
    public void The_nearest_is_never_beaten_by_a_search() =>
        Gen.Select(Gen.Double[-13, 8], Gen.Enum<PreferredSeries>()).Sample((power, series) =>
        {
            var value = Math.Pow(10, power);
            var nearest = PreferredValues.Nearest(value, series);
            var searched = PreferredValues.Within(value / 11, value * 11, series).Min(v => Math.Abs(Math.Log(v / value)));
            return PreferredValues.Contains(nearest, series) && Math.Abs(Math.Log(nearest / value)) <= searched + 1e-9;
        });

    [Fact]
    public void Bad_arguments_are_named()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PreferredValues.Nearest(0, PreferredSeries.E6));
        Assert.Throws<ArgumentOutOfRangeException>(() => PreferredValues.Nearest(double.NaN, PreferredSeries.E6));
        Assert.Throws<ArgumentOutOfRangeException>(() => PreferredValues.Within(1, 1e13, PreferredSeries.E6));
        Assert.Throws<ArgumentOutOfRangeException>(() => PreferredValues.Decade((PreferredSeries)7));
    }
}
