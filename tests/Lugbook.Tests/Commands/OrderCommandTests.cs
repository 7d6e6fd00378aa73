using System.Globalization;
using System.Text.Json;

namespace Lugbook.Tests.Commands;

/// <summary>Source: the invented lists in data/lists; sums by hand.</summary>
public sealed class OrderCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("lugbook-order-").FullName;
    private static readonly string[] Lists = ["--offers", "data/lists/northgate.csv", "data/lists/suedufer.csv", "--drawer", "data/lists/drawer.csv"];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Lists_and_drawer_give_a_proven_plan_whose_sums_add_up()
    {
        var (code, output, error) = await Run.Lugbook(["order", "data/demo/amp", "data/demo/radio", .. Lists, "--json"]);
        Assert.True(code is 0 or 1, error);
        var plan = JsonDocument.Parse(output).RootElement;
        Assert.True(plan.GetProperty("proven").GetBoolean());
        var suppliers = plan.GetProperty("suppliers").EnumerateArray().ToList();
        Assert.Equal(plan.GetProperty("money").GetDecimal(), suppliers.Sum(s => s.GetProperty("goods").GetDecimal() + s.GetProperty("filling").GetDecimal() + s.GetProperty("postage").GetDecimal()));
        foreach (var line in suppliers.SelectMany(s => s.GetProperty("lines").EnumerateArray()))
            Assert.Equal(line.GetProperty("sum").GetDecimal(), line.GetProperty("count").GetInt32() * line.GetProperty("each").GetDecimal());
        Assert.NotEmpty(plan.GetProperty("drawer").EnumerateArray());
        Assert.Equal(["amp", "radio"], plan.GetProperty("positions").EnumerateArray().Select(p => p.GetProperty("book").GetString()).Distinct().Order(StringComparer.Ordinal));
    }

    /// <summary>Source: counting; the drawer of data/lists holds six of 22 nF 630 V.</summary>
    [Fact]
    public async Task A_position_ticked_done_counts_the_drawer_down_once_and_taken_back_counts_it_up()
    {
        var (book, drawer) = (Path.Combine(_folder, "amp.lugbook"), Path.Combine(_folder, "drawer.csv"));
        async Task<(int Code, string Output, int Left)> Fit(string from, string drawerFrom, params string[] ticks)
        {
            var (code, output, error) = await Run.Lugbook(["fit", from, .. ticks, "--out", book, "--drawer", drawerFrom, "--drawer-out", drawer]);
            var line = File.Exists(drawer) ? File.ReadLines(drawer).Single(l => l.StartsWith("22 nF", StringComparison.Ordinal)).Split(',') : [];
            return (code, output + error, line.Length > 10 ? int.Parse(line[10], CultureInfo.InvariantCulture) : -1);
        }
        var done = await Fit("data/demo/amp", "data/lists/drawer.csv", "--done", "C4");
        Assert.Equal((0, 5), (done.Code, done.Left));
        Assert.Contains("5 left", done.Output, StringComparison.Ordinal);
        Assert.Equal(5, (await Fit(book, drawer, "--done", "C4")).Left);
        Assert.Contains("[x] C4", (await Run.Lugbook(["fit", book])).Output, StringComparison.Ordinal);
        Assert.Equal(6, (await Fit(book, drawer, "--undone", "C4")).Left);
        Assert.Contains("[ ] C4", (await Run.Lugbook(["fit", book])).Output, StringComparison.Ordinal);
        var wrong = await Fit(book, drawer, "--done", "C4", "C99");
        Assert.Equal((2, 6), (wrong.Code, wrong.Left));
        Assert.Contains("Nothing was written", wrong.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pins_bans_and_spares_are_heeded()
    {
        var (_, output, _) = await Run.Lugbook(["order", "data/demo/amp", .. Lists, "--pin", "C6=30-207", "--ban", "N1008", "--spares", "1", "--json"]);
        var plan = JsonDocument.Parse(output).RootElement;
        Assert.Equal("30-207", plan.GetProperty("positions").EnumerateArray().Single(p => p.GetProperty("position").GetString() == "C6").GetProperty("item").GetString());
        var lines = plan.GetProperty("suppliers").EnumerateArray().SelectMany(s => s.GetProperty("lines").EnumerateArray()).ToList();
        Assert.DoesNotContain(lines, l => l.GetProperty("item").GetString() == "N1008");
        Assert.All(lines, l => Assert.True(l.GetProperty("count").GetInt32() > l.GetProperty("needed").GetInt32()));
    }

    [Fact]
    public async Task The_plan_is_written_as_csv_and_as_a_workbook()
    {
        var (_, csv, _) = await Run.Lugbook(["order", "data/demo/amp", .. Lists, "--csv"]);
        Assert.StartsWith("supplier,item,count,part,needed,price,sum,positions,why,received\n", csv.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        var file = Path.Combine(_folder, "order.xlsx");
        var (code, _, error) = await Run.Lugbook(["order", "data/demo/amp", .. Lists, "--xlsx", file]);
        Assert.True(code is 0 or 1, error);
        Assert.True(new FileInfo(file).Length > 1000);
    }

    [Fact]
    public async Task A_bad_line_is_told_and_the_others_are_used()
    {
        var list = Path.Combine(_folder, "mine.csv");
        await File.WriteAllTextAsync(list, "item,description,price\nA,film 47nF 630V,0.50\nB,film 100nF 630V,-3\n", TestContext.Current.CancellationToken);
        var (_, output, error) = await Run.Lugbook("order", "data/demo/amp", "--offers", list);
        Assert.Contains("mine.csv, line 3, price: this is less than nothing", error, StringComparison.Ordinal);
        Assert.Contains("C6 C7", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_quotation_has_hours_and_no_purchase_prices()
    {
        var (_, output, _) = await Run.Lugbook("order", "data/demo/amp", "--quote", "--hour-price", "40");
        Assert.Contains("Hours: ", output, StringComparison.Ordinal);
        Assert.Contains("Labour: ", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Parts and postage", output, StringComparison.Ordinal);
        Assert.Contains("common practice, no source", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("order", "data/demo/amp", "--offers", "no-such-list.csv")]
    [InlineData("order", "data/demo/amp", "--offers", "data/demo/amp/wires.csv")]
    [InlineData("order", "data/demo/amp", "--pin", "C6")]
    [InlineData("order", "data/demo/amp", "--seconds", "0")]
    [InlineData("order", "data/demo/amp", "data/demo/amp")]
    public async Task Wrong_input_ends_with_code_2(params string[] args)
    {
        var (code, _, error) = await Run.Lugbook(args);
        Assert.Equal(2, code);
        Assert.NotEmpty(error);
    }

    [Fact]
    public async Task Sums_do_not_follow_the_machines_decimal_mark()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var (_, german, _) = await Run.Lugbook(["order", "data/demo/amp", .. Lists]);
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            var (_, plain, _) = await Run.Lugbook(["order", "data/demo/amp", .. Lists]);
            Assert.Equal(plain, german);
        }
        finally { CultureInfo.CurrentCulture = before; }
    }
}
