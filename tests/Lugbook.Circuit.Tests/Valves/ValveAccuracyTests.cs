using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: the handbook lines of data/valves, each with its own source.</summary>
public class ValveAccuracyTests
{
    /// <summary>Writes the page where the environment says so: LUGBOOK_WRITE_DOCS=path/to/docs/accuracy.</summary>
    [Fact]
    public void The_page_can_be_written()
    {
        var page = ValveAccuracy.Page(Data.Accuracy, Data.Text("published-tube-model-parameters.csv"));
        Assert.Contains("| 12AX7A | Triode |", page, StringComparison.Ordinal);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, "valve-fits.md"), page);
    }
}
