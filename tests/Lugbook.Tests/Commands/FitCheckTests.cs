using System.Text.Json;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/json.md, docs/slips.md.</summary>
public class FitCheckTests
{
    [Fact]
    public async Task The_check_of_a_position_is_told_to_programs_whole()
    {
        var (code, output, _) = await Run.Lugbook("fit", "data/demo/amp", "--position", "c6", "--capacitance-meter", "lcr-bridge", "--json");
        Assert.Equal(0, code);
        var check = JsonDocument.Parse(output).RootElement;
        Assert.True(check.GetProperty("isProven").GetBoolean());
        var slips = check.GetProperty("slips").EnumerateArray().ToArray();
        var readings = check.GetProperty("readings").EnumerateArray().ToArray();
        Assert.NotEmpty(readings);
        // Every slip of the list is either exposed by a reading or among what is to be looked at.
        var looks = check.GetProperty("lookAt").EnumerateArray().Select(l => l.GetString()).ToArray();
        foreach (var slip in slips)
        {
            var id = slip.GetProperty("id").GetString();
            var exposed = readings.Any(r => r.GetProperty("slips").EnumerateArray().Any(s => s.GetProperty("id").GetString() == id && s.GetProperty("exposed").GetBoolean()));
            Assert.True(exposed == slip.GetProperty("exposed").GetBoolean() && (exposed || looks.Contains(slip.GetProperty("lookAt").GetString())), id);
        }
        Assert.Equal("open", check.GetProperty("entered").GetProperty("verdict").GetString());
        Assert.Contains("capacitance", readings.Select(r => r.GetProperty("quantity").GetString()));
    }

    [Theory]
    [InlineData("C99", "digital-10M", "C99 is not on the job sheet. On it are: C6, C7,")]
    [InlineData("C6", "no-such", "no meter is called 'no-such'")]
    public async Task What_cannot_be_checked_is_refused_with_what_to_write(string position, string meter, string says)
    {
        var (code, output, error) = await Run.Lugbook("fit", "data/demo/amp", "--position", position, "--meter", meter);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}
