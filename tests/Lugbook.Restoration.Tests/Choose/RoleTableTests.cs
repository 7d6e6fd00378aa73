using System.Globalization;
using System.Text;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>Roles against a table written by hand from the circuits, by someone who had not seen what the program finds (roles.csv).</summary>
public class RoleTableTests
{
    private sealed record Line(string Book, string Position, string Word, string? Also);
    private sealed record Told(Line Line, Role Found, bool Hit);

    private static readonly Lazy<Told[]> All = new(() => [.. Lines().GroupBy(l => l.Book).SelectMany(Tell)]);

    [Theory]
    [InlineData("radio", 0.92)]
    [InlineData("amp", 0.92)]
    [InlineData("tv", 0.9)]
    public void Most_roles_are_what_the_hand_written_table_says(string book, double least)
    {
        var told = All.Value.Where(t => t.Line.Book == book).ToArray();
        var misses = string.Join(", ", told.Where(t => !t.Hit).Select(t => $"{t.Line.Position} {t.Line.Word}: {ChooseStage.WordsOf(t.Found)}"));
        Assert.True(told.Count(t => t.Hit) >= least * told.Length, $"{told.Count(t => t.Hit)} of {told.Length}. {misses}");
    }

    [Fact]
    public void No_position_on_the_line_is_missed()
    {
        Assert.All(All.Value.Where(t => t.Line.Word is "across-line" or "line-to-touchable" or "touch-barrier"), t => Assert.True(t.Hit, $"{t.Line.Book} {t.Line.Position}: {t.Found}"));
    }

    [Fact]
    public void The_report_is_written_when_asked_for()
    {
        var report = Report(All.Value);
        Assert.Contains("| tv |", report, StringComparison.Ordinal);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, "roles.md"), report);
    }

    private static string Report(Told[] told)
    {
        var text = new StringBuilder("# Roles found, against a table written by hand\n\nThe table (`tests/Lugbook.Restoration.Tests/Choose/roles.csv`) was written from the circuits, before its author had seen what the program finds. Where two engineers would honestly differ it gives two words; either is a hit. "
            + "\"Other\" is a hit when the program says that it does not know.\n\n| book | positions | hits | share |\n|---|---|---|---|\n");
        foreach (var book in told.GroupBy(t => t.Line.Book))
            text.Append(CultureInfo.InvariantCulture, $"| {book.Key} | {book.Count()} | {book.Count(t => t.Hit)} | {100.0 * book.Count(t => t.Hit) / book.Count():0} % |\n");
        text.Append("\nMisses:\n\n| book | position | by hand | found |\n|---|---|---|---|\n");
        foreach (var miss in told.Where(t => !t.Hit)) text.Append(CultureInfo.InvariantCulture, $"| {miss.Line.Book} | {miss.Line.Position} | {miss.Line.Word} | {ChooseStage.WordsOf(miss.Found)} |\n");
        return text.Append("\nWritten by the test `The_report_is_written_when_asked_for` with `LUGBOOK_WRITE_DOCS` naming the folder.\n").ToString();
    }

    private static IEnumerable<Told> Tell(IGrouping<string, Line> book)
    {
        var result = ChooseStage.Run(MapStage.Run(DemoBooks.Named(book.Key), DemoBooks.Handbook), Shop.Policy);
        foreach (var line in book)
            if (result.For(line.Position) is { } choice)
                yield return new(line, choice.Role.Role, Roles(line.Word).Contains(choice.Role.Role) || line.Also is not null && Roles(line.Also).Contains(choice.Role.Role));
    }

    private static IEnumerable<Line> Lines() => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Choose", "roles.csv")).Skip(1).Select(l => l.Split(',')).Select(c => new Line(c[0], c[1], c[2], c[3].Length == 0 ? null : c[3]));

    private static Role[] Roles(string word) => word switch
    {
        "agc-filter" => [Role.ControlVoltageFilter], "voltage-divider" or "bleeder" => [Role.Divider], "mixing" => [Role.SignalSeries], "heater" => [Role.HeaterString],
        "line-series" => [Role.LineSeries], "tuned" => [Role.Tuned], "rf-bypass" => [Role.RfBypass], "neutralising" or "other" => [Role.Unknown],
        _ => [ChooseStage.RoleOf(word) ?? throw new FormatException(word)],
    };
}
