using System.Text.Json;

namespace Lugbook.Tests.Commands;

/// <summary>Source: docs/json.md, docs/trace.md.</summary>
public class TraceCommandTests
{
    [Fact]
    public async Task A_dead_output_valve_is_named_from_a_file_of_readings()
    {
        var file = Path.GetTempFileName();
        try
        {
            // The radio's output valve passes nothing: no volts at its cathode, supply and plate high (no bias, no load).
            await File.WriteAllTextAsync(file, "ref,quantity,value\nV4-8,volts,0.0\nV4-3,volts,135\nV4-4,volts,136\n", TestContext.Current.CancellationToken);
            var (code, output, error) = await Run.Lugbook("trace", "data/demo/radio", "--readings", file, "--line", "117", "--json");
            Assert.True(code is 0 or 1, error);
            var trace = JsonDocument.Parse(output).RootElement;
            Assert.Equal("V4 dead", trace.GetProperty("suspects")[0].GetProperty("id").GetString());
            Assert.True(trace.GetProperty("suspects")[0].GetProperty("probability").GetDouble() > 0.5);
            Assert.Equal(3, trace.GetProperty("readings").GetArrayLength());
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Theory]
    [InlineData("--symptom", "smells", "is no symptom that is known")]
    [InlineData("--line", "3", "is no line voltage")]
    [InlineData("--touched", "C999", "names C999, which is no part")]
    [InlineData("--confidence", "2", "lies between 0.5 and 0.999")]
    public async Task What_cannot_be_meant_is_refused(string option, string value, string says)
    {
        var (code, output, error) = await Run.Lugbook("trace", "data/demo/radio", option, value);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}
