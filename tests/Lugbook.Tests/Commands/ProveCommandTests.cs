using System.Text.Json;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/json.md, docs/prove.md.</summary>
public class ProveCommandTests
{
    [Fact]
    public async Task The_cold_proof_is_told_to_programs_whole()
    {
        var (code, output, _) = await Run.Lugbook("prove", "data/demo/amp", "--json");
        Assert.Equal(0, code);
        var proof = JsonDocument.Parse(output).RootElement;
        var numbers = proof.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("number").GetInt32()).ToArray();
        Assert.Equal(Enumerable.Range(1, numbers.Length), numbers);
        foreach (var danger in proof.GetProperty("shorts").EnumerateArray())
        {
            var by = danger.GetProperty("by").EnumerateArray().Select(n => n.GetInt32()).ToArray();
            Assert.Equal(danger.GetProperty("isTold").GetBoolean(), by.Length > 0);
            Assert.True(by.All(n => n <= proof.GetProperty("shortReadings").GetInt32()) && (by.Length > 0 || danger.GetProperty("whyNot").GetString() is { Length: > 0 }));
        }
        Assert.Equal("open", proof.GetProperty("entered").GetProperty("verdict").GetString());
        Assert.Contains("S-no-power", proof.GetProperty("cautions").EnumerateArray().Select(c => c.GetProperty("id").GetString()));
    }

    [Theory]
    [InlineData("--meter", "no-such", "no meter is called 'no-such'")]
    [InlineData("--capacitance-meter", "pointer-1k", "pointer-1k reads no capacitance")]
    public async Task A_meter_that_cannot_read_it_is_refused(string option, string meter, string says)
    {
        var (code, output, error) = await Run.Lugbook("prove", "data/demo/amp", option, meter);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}
