using System.Text.Json;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/json.md and each command's help.</summary>
public class CommandTests
{
    [Theory]
    [InlineData(".005 MFD 600V", 5e-9, "farad")]
    [InlineData("brown black orange silver", 10_000, "ohm")]
    [InlineData("473J 630", 47e-9, "farad")]
    public async Task Read_answers_in_json(string marking, double value, string unit)
    {
        var (code, output, _) = await Run.Lugbook(["read", .. marking.Split(' '), "--json"]);
        Assert.Equal(0, code);
        var best = JsonDocument.Parse(output).RootElement.GetProperty("meanings")[0];
        Assert.Equal(value, best.GetProperty("value").GetDouble(), value * 1e-9);
        Assert.Equal(unit, best.GetProperty("unit").GetString());
    }

    [Fact]
    public async Task Read_refuses_what_cannot_be_with_exit_code_2_and_a_caret()
    {
        var (code, output, error) = await Run.Lugbook("read", "4k7k7");
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains("    4k7k7\n       ^\n", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Map_keeps_chassis_and_common_of_the_radio_apart()
    {
        var (code, output, _) = await Run.Lugbook("map", "data/demo/radio", "--json");
        Assert.Equal(0, code);
        var root = JsonDocument.Parse(output).RootElement;
        Assert.Equal("chassis", root.GetProperty("chassis").GetProperty("node").GetString());
        Assert.NotEqual("chassis", root.GetProperty("common").GetProperty("node").GetString());
        var lugs = root.GetProperty("nodes").EnumerateArray().SelectMany(n => n.GetProperty("lugs").EnumerateArray()).Select(l => l.GetString()).ToList();
        Assert.Equal(84, lugs.Count);
        Assert.Equal(84, lugs.Distinct().Count());
    }

    [Theory]
    [InlineData("map")]
    [InlineData("choose")]
    [InlineData("order")]
    [InlineData("fit")]
    public async Task Every_book_command_answers_for_people_and_for_programs(string command)
    {
        foreach (var set in new[] { "radio", "amp", "tv" })
        {
            var (code, people, error) = await Run.Lugbook(command, $"data/demo/{set}");
            Assert.True(code is 0 or 1, error);
            Assert.Contains("\n", people, StringComparison.Ordinal);
            var (_, json, _) = await Run.Lugbook(command, $"data/demo/{set}", "--json");
            Assert.Equal(JsonValueKind.Object, JsonDocument.Parse(json).RootElement.ValueKind);
        }
    }

    [Fact]
    public async Task Fit_says_at_each_lug_whether_to_clear_or_to_splice()
    {
        var (_, output, _) = await Run.Lugbook("fit", "data/demo/amp", "--json");
        var lugs = JsonDocument.Parse(output).RootElement.GetProperty("lugs").EnumerateArray().ToList();
        Assert.NotEmpty(lugs);
        Assert.All(lugs, lug =>
        {
            var stays = lug.GetProperty("stay").GetArrayLength() + lug.GetProperty("wires").EnumerateArray().Count(w => !w.GetProperty("bond").GetBoolean());   // a rivet is not soldered
            Assert.Equal(stays == 0 ? "clear-to-bare-metal" : "splice-onto-short-tails", lug.GetProperty("verdict").GetString());
        });
    }

    [Theory]
    [InlineData("read")]
    [InlineData("map")]
    [InlineData("choose")]
    [InlineData("order")]
    [InlineData("fit")]
    [InlineData("valve")]
    [InlineData("draw")]
    [InlineData("save")]
    public async Task Help_ends_with_examples(string command)
    {
        var (code, output, _) = await Run.Lugbook(command, "--help");
        Assert.Equal(0, code);
        Assert.Contains($"Examples:\n  lugbook {command} ", output.ReplaceLineEndings("\n"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("fit", "data/demo/nothing-here")]
    [InlineData("map")]
    [InlineData("valve", "no such valve")]
    [InlineData("mapp", "data/demo/radio")]
    [InlineData("draw", "data/demo/radio", "--out", "x.svg", "--turn", "45")]
    [InlineData("--port", "70000")]
    [InlineData("read", "47K", "--kind", "flux capacitor")]
    public async Task Wrong_input_ends_with_code_2_and_says_what_to_do(params string[] args)
    {
        var (code, _, error) = await Run.Lugbook(args);
        Assert.Equal(2, code);
        Assert.True(error.Length > 20, error);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    /// <summary>Formula: R10 of 250 kΩ ±10 % reads 285 kΩ: above 275 kΩ by more than a digital meter's error, within that of a meter of ±10 % of 500 kΩ.</summary>
    [Fact]
    public async Task Judge_takes_a_meter_of_the_books_own_and_volts_at_a_lug()
    {
        var folder = Directory.CreateTempSubdirectory("lugbook-judge-").FullName;
        foreach (var table in Directory.EnumerateFiles(Path.Combine(Run.Root(), "data", "demo", "amp"))) File.Copy(table, Path.Combine(folder, Path.GetFileName(table)));
        await File.WriteAllTextAsync(Path.Combine(folder, "meters.csv"), "meter,quantity,range,full_scale_pct\nold one,ohms,500k,10\n", TestContext.Current.CancellationToken);
        var readings = Path.Combine(folder, "mine.txt");
        await File.WriteAllTextAsync(readings, "ref,quantity,value,lifted,meter\nR10,ohms,285K,yes,\nV3-3,volts,100,,digital-10M\n", TestContext.Current.CancellationToken);
        var (code, text, error) = await Run.Lugbook("judge", folder, "--readings", readings, "--meter", "Old One");
        Assert.True(code == 1, error);
        Assert.Contains("R10    ohms lifted: at the limit", text, StringComparison.Ordinal);
        Assert.Contains("V3-3   not as it should be. 100 V at V3-3 (plate)", text, StringComparison.Ordinal);
        var (_, digital, _) = await Run.Lugbook("judge", folder, "--readings", readings);
        Assert.Contains("R10    ohms lifted: bad", digital, StringComparison.Ordinal);
        var (wrong, _, said) = await Run.Lugbook("judge", folder, "--meter", "nobody's");
        Assert.Equal(2, wrong);
        Assert.Contains("Known: old one, digital-10M", said, StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_book_saved_as_one_file_answers_as_before()
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("lugbook-test-").FullName, "radio.lugbook");
        var (saved, _, trouble) = await Run.Lugbook("save", "data/demo/radio", "--out", file);
        Assert.True(saved == 0, trouble);
        var (_, before, _) = await Run.Lugbook("map", "data/demo/radio", "--json");
        var (_, after, _) = await Run.Lugbook("map", file, "--json");
        Assert.Equal(before, after);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    [Fact]
    public async Task Valve_shows_pins_from_below_and_meets_the_handbook_line()
    {
        // Source: AWV Radiotron 6V6-GT sheets (Dec 1944): 250 V, 250 V, -12.5 V, 45 mA; pin 3 is the plate.
        var (code, output, _) = await Run.Lugbook("valve", "6V6", "--json");
        Assert.Equal(0, code);
        var root = JsonDocument.Parse(output).RootElement;
        Assert.Equal("p", root.GetProperty("pins").GetProperty("3")[0].GetString());
        var line = root.GetProperty("sections")[0].GetProperty("lines").EnumerateArray()
            .Single(l => l.GetProperty("plateVolts").GetDouble() == 250 && l.TryGetProperty("screenVolts", out var s) && s.GetDouble() == 250 && Math.Abs(l.GetProperty("gridVolts").GetDouble() + 12.5) < 0.01);
        var plate = line.GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("quantity").GetString() == "plate-current");
        Assert.Equal(0.045, plate.GetProperty("given").GetDouble(), 1e-9);
        Assert.InRange(plate.GetProperty("predicted").GetDouble(), 0.045 * 0.95, 0.045 * 1.05);
    }
}
