using System.Text.Json;
using Lugbook.Output;
using Lugbook.Store.Sqlite;

namespace Lugbook.Tests.Commands;

/// <summary>The job sheet on paper, and its ticks entered in one sweep.</summary>
public sealed class FitCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("fit").FullName;

    [Theory]
    [InlineData("1-3, 7", new[] { 1, 2, 3, 7 })]
    [InlineData("5 2;2", new[] { 2, 5 })]
    [InlineData("2–4", new[] { 2, 3, 4 })]
    [InlineData("1 - 3", new[] { 1, 2, 3 })]
    [InlineData("c8, 2, R1", new[] { 2, 5, 8 })]
    public void Steps_are_read_as_people_write_them(string text, int[] expected)
    {
        var (numbers, wrong) = StepNumbers.Read(text, ["C1", "C2", "C3", "C4", "R1", "R2", "R3", "C8", "C9"]);
        Assert.Null(wrong);
        Assert.Equal(expected, numbers);
    }

    [Theory]
    [InlineData("1-12")]
    [InlineData("0")]
    [InlineData("4-2")]
    [InlineData("C5")]
    [InlineData("")]
    [InlineData("1-2-3")]
    public void What_is_no_step_is_refused_whole(string text)
    {
        var (numbers, wrong) = StepNumbers.Read(text, ["C1", "C2", "C3", "C4", "R1", "R2", "R3", "C8", "C9"]);
        Assert.NotNull(wrong);
        Assert.Empty(numbers);
    }

    [Fact]
    public async Task A_sweep_is_kept_in_the_book_keeps_its_numbers_and_can_be_taken_back()
    {
        var file = Path.Combine(_folder, "set.lugbook");
        Assert.Equal(0, (await Run.Lugbook("save", "data/demo/radio", "--out", file)).Code);
        var before = await Steps(file);
        var (code, said, _) = await Run.Lugbook("fit", file, "--seconds", "0", "--done", "2-3");
        Assert.Equal(0, code);
        Assert.Contains("--undone 2-3", said, StringComparison.Ordinal);
        var after = await Steps(file);
        Assert.Equal([false, true, true], after.Take(3).Select(s => s.Done));
        Assert.Equal(before.Skip(1).Take(2).Select(s => s.Position), after.Skip(1).Take(2).Select(s => s.Position));
        Assert.Equal(0, (await Run.Lugbook("fit", file, "--seconds", "0", "--undone", "2-3")).Code);
        Assert.DoesNotContain(await Steps(file), s => s.Done);
        var (refused, _, error) = await Run.Lugbook("fit", file, "--done", "1-99");
        Assert.Equal(2, refused);
        Assert.Contains("Nothing was entered", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_tick_by_the_command_on_a_book_of_the_shelf_is_told_to_the_bench_and_stands_in_the_history()
    {
        var stop = TestContext.Current.CancellationToken;
        var file = Path.Combine(_folder, "shelf.db");
        await using var bench = await SqliteShelf.OpenAsync(file, TimeProvider.System, stop);
        await bench.AddAsync(Drawing.DemoBooks.Read("amp") with { Name = "hall-amp" }, "bench", "begun", stop);
        await bench.LookAsync(stop);
        var heard = new List<string>();
        bench.Changed += heard.Add;
        var before = Environment.GetEnvironmentVariable("LUGBOOK_SHELF");
        Environment.SetEnvironmentVariable("LUGBOOK_SHELF", file);
        try
        {
            var (code, said, error) = await Run.Lugbook("fit", "hall-amp", "--seconds", "0", "--done", "C6");
            Assert.Equal("", error);
            Assert.Equal(0, code);
            Assert.Contains("C6", said, StringComparison.Ordinal);
            await bench.LookAsync(stop);
            Assert.Equal(["hall-amp"], heard);
            Assert.True((await bench.OpenAsync("hall-amp", stop)).Book.Work.Named("C6")!.Done);
            Assert.Equal(("command", "C6 exchanged, by the command"), (await bench.HistoryAsync("hall-amp", stop)) is [var newest, ..] ? (newest.Who, newest.What) : default);
            Assert.Equal(0, (await Run.Lugbook("fit", "hall-amp", "--seconds", "0", "--undone", "C6")).Code);
            Assert.False((await bench.OpenAsync("hall-amp", stop)).Book.Work.Named("C6")!.Done);
            Assert.Equal(2, (await Run.Lugbook("fit", "no-such-amp", "--done", "C6")).Code);
        }
        finally { Environment.SetEnvironmentVariable("LUGBOOK_SHELF", before); }
    }

    [Fact]
    public async Task The_paper_has_a_box_for_every_step_and_every_lug()
    {
        var (_, paper, _) = await Run.Lugbook("fit", "data/demo/radio", "--print", "--seconds", "0");
        var steps = await Steps("data/demo/radio");
        Assert.All(steps, s => Assert.Contains(s.Position, paper, StringComparison.Ordinal));
        Assert.Equal(steps.Count, paper.Split('\n').Count(l => l.StartsWith("[ ] ", StringComparison.Ordinal) && l.Contains(" off ", StringComparison.Ordinal)));
        Assert.Contains("cut ends must be found", paper, StringComparison.Ordinal);
    }

    private static async Task<List<(string Position, bool Done)>> Steps(string book)
    {
        var (_, output, _) = await Run.Lugbook("fit", book, "--json", "--seconds", "0");
        using var json = JsonDocument.Parse(output);
        return [.. json.RootElement.GetProperty("steps").EnumerateArray().Select(s => (s.GetProperty("position").GetString()!, s.GetProperty("done").GetBoolean()))];
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
