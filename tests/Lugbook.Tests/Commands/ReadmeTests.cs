namespace Lugbook.Tests.Commands;

/// <summary>Source: README.md; each command shown there prints what is shown, up to a line of three dots.</summary>
public class ReadmeTests
{
    [Fact]
    public async Task The_tour_shows_true_output()
    {
        var tours = Tours(await File.ReadAllLinesAsync(Path.Combine(Run.Root(), "README.md"), TestContext.Current.CancellationToken)).ToList();
        Assert.True(tours.Count >= 3, $"{tours.Count} commands were found in the README's tour.");
        foreach (var (command, shown) in tours)
        {
            var (_, output, error) = await Run.Lugbook(Words(command));
            var printed = (output + error).ReplaceLineEndings("\n").Split('\n').Select(l => l.TrimEnd()).ToList();
            for (var i = 0; i < shown.Count; i++)
            {
                if (shown[i] == "...") break;
                Assert.True(i < printed.Count && printed[i] == shown[i], $"{command}, line {i + 1}: the README shows\n{shown[i]}\nbut it prints\n{(i < printed.Count ? printed[i] : "nothing")}");
            }
        }
    }

    private static IEnumerable<(string Command, List<string> Shown)> Tours(string[] lines)
    {
        for (var i = 0; i < lines.Length; i++)
        {
            if (!lines[i].StartsWith("    $ ./lugbook ", StringComparison.Ordinal)) continue;
            var shown = lines.Skip(i + 1).TakeWhile(l => l.StartsWith("    ", StringComparison.Ordinal) && !l.StartsWith("    $ ", StringComparison.Ordinal) || l.Length == 0)
                .Select(l => l.Length >= 4 ? l[4..].TrimEnd() : "").ToList();
            while (shown.Count > 0 && shown[^1].Length == 0) shown.RemoveAt(shown.Count - 1);
            yield return (lines[i]["    $ ./lugbook ".Length..], shown);
        }
    }

    // Blanks separate words; quotation marks hold them together.
    private static string[] Words(string command) =>
        [.. command.Split('"').SelectMany((piece, i) => i % 2 == 1 ? [piece] : piece.Split(' ', StringSplitOptions.RemoveEmptyEntries))];
}
