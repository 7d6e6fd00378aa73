using System.Globalization;
using System.Text.Json;
using System.Xml.Linq;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/valves.md and docs/json.md.</summary>
public sealed class ValveCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("lugbook-valves-");
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public void Dispose() => _folder.Delete(recursive: true);

    private string At(string name) => Path.Combine(_folder.FullName, name);

    private string Lines(params string[] lines)
    {
        File.WriteAllText(At("lines.csv"), string.Join('\n', lines) + "\n");
        return At("lines.csv");
    }

    /// <summary>Source: AWV Radiotron 6V6-GT sheets (Dec 1944): 315 V, 12 W, 285 V, 2 W.</summary>
    [Fact]
    public async Task A_type_shows_its_limits()
    {
        var (code, text, _) = await Run.Lugbook("valve", "6V6GT");
        Assert.Equal(0, code);
        Assert.Contains("Limits: plate 315 V and 12 W, screen 285 V and 2 W", text, StringComparison.Ordinal);
        var (_, json, _) = await Run.Lugbook("valve", "6V6GT", "--json");
        Assert.Equal(12, JsonDocument.Parse(json).RootElement.GetProperty("limits").GetProperty("plateWatts").GetDouble());
    }

    /// <summary>Source: as above; with one of a pair of output valves out, the other loses half of the shared bias.</summary>
    [Fact]
    public async Task A_sheet_says_which_valve_is_above_its_limit_and_when()
    {
        var (_, json, _) = await Run.Lugbook("sheet", "data/demo/amp", "--json");
        var plate = JsonDocument.Parse(json).RootElement.GetProperty("valves").EnumerateArray().Single(v => v.GetProperty("valve").GetString() == "V3" && v.GetProperty("electrode").GetString() == "plate");
        Assert.Equal(12, plate.GetProperty("limit").GetDouble());
        Assert.True(plate.GetProperty("worst").GetDouble() > 12);
        Assert.EndsWith("W in its plate when V4 pulled; limit 12 W", plate.GetProperty("over").GetString(), StringComparison.Ordinal);
        var (_, text, _) = await Run.Lugbook("sheet", "data/demo/amp");
        Assert.Contains("V3: ", text, StringComparison.Ordinal);
    }

    /// <summary>Source: the law's own arithmetic: on the hyperbola volts times amperes is the limit.</summary>
    [Fact]
    public async Task A_plot_is_whole_svg_whose_limit_is_a_hyperbola()
    {
        var (code, _, error) = await Run.Lugbook("valve", "6V6", "--plot", At("curves.svg"));
        Assert.True(code == 0, error);
        var root = XDocument.Load(At("curves.svg")).Root!;
        Assert.Equal(Svg + "svg", root.Name);
        var paths = root.Descendants(Svg + "path").ToLookup(p => p.Attribute("class")!.Value);
        Assert.True(paths["curve"].Count() >= 6);
        Assert.True(root.Descendants(Svg + "circle").Count(c => c.Attribute("class")!.Value.StartsWith("point", StringComparison.Ordinal)) >= 4);
        // The axes as labelled: 0 to 400 V over 616 units, 0 to 120 mA over 362.
        Assert.Contains(root.Descendants(Svg + "text"), t => t.Value == "400");
        Assert.Contains(root.Descendants(Svg + "text"), t => t.Value == "120");
        var points = paths["limit"].First(p => p.Elements(Svg + "title").Any()).Attribute("d")!.Value.Split(['M', 'L'], StringSplitOptions.RemoveEmptyEntries)
            .Select(p => p.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        Assert.True(points.Length > 20);
        Assert.All(points, p => Assert.Equal(12, (p[0] - 74) / 616 * 400 * (420 - p[1]) / 362 * 0.12, 0.05));
    }

    /// <summary>Source: 6SC7, 250 V, -2 V, 2 mA, µ 70 (from memory), and a type that no file knows.</summary>
    [Fact]
    public async Task Typed_lines_are_fitted_and_weak_predictions_are_named()
    {
        var file = Lines("type,plate_v,grid1_v,plate_ma,gm_umho,mu,source", "9ZZ9,250,-2,2,1325,70,a sheet");
        var (code, json, error) = await Run.Lugbook("valve", "fit", file, "--json", "--plot", At("own.svg"));
        Assert.True(code == 0, error);
        var type = JsonDocument.Parse(json).RootElement.GetProperty("types")[0];
        var section = type.GetProperty("sections")[0];
        Assert.All(section.GetProperty("lines")[0].GetProperty("figures").EnumerateArray(), f => Assert.InRange(f.GetProperty("errorPercent").GetDouble(), -3, 3));
        Assert.NotEmpty(section.GetProperty("weak").EnumerateArray());
        Assert.InRange(type.GetProperty("newSpread").GetDouble(), 0.1, 0.6);
        Assert.True(File.Exists(At("own.svg")));
    }

    [Theory]
    [InlineData("type,plate_v,grid1_v,plate_ma|9ZZ9,250,-2,x", null, "line 2, plate_ma")]
    [InlineData("type,plate_v,grid1_v,plate_ma|9ZZ9,250,,3", null, "line 2, grid1_v")]
    [InlineData("type,plate_v,grid1_v,plate_ma", null, "There is no line to fit")]
    [InlineData("type,plate_v,grid1_v,plate_ma|9ZZ9,250,-2,2", "beam", "line 2, connection")]
    [InlineData("type,plate_v,grid1_v,plate_ma|9ZZ9,250,-2,2", "pentagon", "is not a class")]
    public async Task Wrong_lines_are_refused_with_line_and_remedy(string lines, string? valveClass, string place)
    {
        var file = Lines(lines.Split('|'));
        var (code, output, error) = await Run.Lugbook(valveClass is null ? ["valve", "fit", file] : ["valve", "fit", file, "--class", valveClass]);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains(place, error, StringComparison.Ordinal);
    }

    /// <summary>Source: docs/accuracy, which the command wrote; a change of the fit must write it anew.</summary>
    [Fact]
    public async Task Check_writes_the_pages_that_stand_in_the_docs()
    {
        var (code, _, error) = await Run.Lugbook("valve", "check", "--write", _folder.FullName);
        Assert.True(code == 0, error);
        foreach (var page in new[] { "valve-fits.md", "valve-numbers.md" })
        {
            string Shape(string path) => string.Join('\n', File.ReadAllLines(path).Select(l => string.Join('|', l.Split('|').Take(3))));
            Assert.Equal(Shape(Path.Combine(Run.Root(), "docs", "accuracy", page)), Shape(At(page)));
        }
    }

    /// <summary>Source: the amplifier with a type of ours in V2, whose lines are those of a 6SC7 (receiving-tube handbook, from memory).</summary>
    [Fact]
    public async Task Lines_of_ones_own_make_an_unknown_valve_predictable()
    {
        var amp = Directory.CreateDirectory(At("amp")).FullName;
        foreach (var table in Directory.EnumerateFiles(Path.Combine(Run.Root(), "data", "demo", "amp")))
            await File.WriteAllTextAsync(Path.Combine(amp, Path.GetFileName(table)), (await File.ReadAllTextAsync(table, TestContext.Current.CancellationToken)).Replace("6SC7", "9XC7", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        var (_, before, _) = await Run.Lugbook("sheet", amp, "--json");
        Assert.Contains("V2 (9XC7): no handbook line is known", before, StringComparison.Ordinal);
        var file = Lines("type,plate_v,grid1_v,plate_ma,gm_umho,mu,source", "9XC7,250,-2,2,1325,70,a sheet");
        var (code, after, error) = await Run.Lugbook("sheet", amp, "--json", "--valves", file);
        Assert.True(code == 0, error);
        Assert.DoesNotContain("V2 (9XC7): no handbook line is known", after, StringComparison.Ordinal);
        // The same lines put into the book travel with it.
        var (saved, _, trouble) = await Run.Lugbook("save", amp, "--valves", file, "--out", At("amp.lugbook"));
        Assert.True(saved == 0, trouble);
        var (_, carried, _) = await Run.Lugbook("sheet", At("amp.lugbook"), "--json");
        Assert.DoesNotContain("V2 (9XC7): no handbook line is known", carried, StringComparison.Ordinal);
        var (refused, _, why) = await Run.Lugbook("save", amp, "--valves", Lines("type,plate_v,grid1_v,plate_ma", "9XC7,250,,2"), "--out", At("none.lugbook"));
        Assert.Equal((2, false), (refused, File.Exists(At("none.lugbook"))));
        Assert.Contains("valve line 1, 9XC7, grid1_v", why, StringComparison.Ordinal);
        var (wrong, _, said) = await Run.Lugbook("sheet", "data/demo/amp", "--valves", At("nothing.csv"));
        Assert.Equal(2, wrong);
        Assert.Contains("--valves names", said, StringComparison.Ordinal);
    }

    /// <summary>Source: docs/valves.md: a folder with pins and lines adds a type.</summary>
    [Fact]
    public async Task A_folder_of_ones_own_adds_pins_and_limits()
    {
        await File.WriteAllTextAsync(At("my-pinouts.csv"), "type,equivalents,class,base,pinout,heater_v,heater_a,source,confidence,max_plate_w\n9ZZ9,,triode,octal,2=h;3=p;5=g;7=h;8=k,6.3,0.3,a sheet,verified,2.5\n", TestContext.Current.CancellationToken);
        var (code, text, error) = await Run.Lugbook("valve", "9ZZ9", "--valves", _folder.FullName);
        Assert.True(code == 0, error);
        Assert.Contains("Limits: plate 2.5 W", text, StringComparison.Ordinal);
        await File.AppendAllTextAsync(At("my-pinouts.csv"), "9ZZ8,,triode,octal,99=p,6.3,0.3,a sheet,verified,2.5\n", TestContext.Current.CancellationToken);
        var (wrong, _, said) = await Run.Lugbook("valve", "9ZZ9", "--valves", _folder.FullName);
        Assert.Equal(2, wrong);
        Assert.Contains("9ZZ8", said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("valve")]
    [InlineData("valve", "5Y3GT", "--plot", "/nowhere/at/all.svg")]
    [InlineData("valve", "fit")]
    [InlineData("valve", "fit", "no-such-file.csv")]
    [InlineData("valve", "check", "--write", "/nowhere/at/all")]
    public async Task Wrong_input_ends_with_code_2(params string[] args)
    {
        var (code, output, error) = await Run.Lugbook(args);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.True(error.Length > 20, error);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }
}
