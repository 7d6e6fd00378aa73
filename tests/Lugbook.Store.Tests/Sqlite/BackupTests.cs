using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Lugbook.Store.Tests.Shelves;
using Lugbook.Trade;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Sqlite;

/// <summary>Source: the contract in SqliteShelf; no outside figures.</summary>
public sealed class BackupTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    private string Target(string name) => Path.Combine(_bench.Folder, name);

    [Fact]
    public async Task A_backup_taken_while_others_write_is_one_moment_of_the_shelf_and_opens_as_one()
    {
        await using var shelf = await _bench.OpenAsync();
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        var writing = Task.Run(async () =>
        {
            for (var i = 0; i < 120; i++)
            {
                await shelf.EditAsync("radio", "Ada", "both", b => b with
                {
                    Parts = b.Parts.Add(Resistor("R")), Lugs = b.Lugs.Add(new() { Name = "A-1", Mount = "A" }),
                }, Stop);
            }
        }, Stop);
        for (var copy = 0; copy < 4; copy++)
        {
            var acknowledged = (await shelf.OpenAsync("radio", Stop)).Version;
            await shelf.BackupAsync(Target($"copy{copy}.db"), Stop);
            await using var backup = await SqliteShelf.OpenAsync(Target($"copy{copy}.db"), _bench.Clock, Stop);
            var stored = await backup.OpenAsync("radio", Stop);
            Assert.InRange(stored.Version, acknowledged, 121);
            Assert.Equal((stored.Version - 1, stored.Version - 1), (stored.Book.Parts.Count, stored.Book.Lugs.Count));
            Assert.Equal(stored.Version, (await backup.HistoryAsync("radio", Stop)).Count);
        }
        await writing;
        Assert.Equal(121, (await shelf.OpenAsync("radio", Stop)).Version);
    }

    [Fact]
    public async Task A_backup_never_overwrites_and_leaves_nothing_behind_when_it_fails()
    {
        await using var shelf = await _bench.OpenAsync();
        await File.WriteAllTextAsync(Target("letter.txt"), "Dear Sir", Stop);
        Assert.Contains("never overwrites", (await Assert.ThrowsAsync<ShelfException>(() => shelf.BackupAsync(Target("letter.txt"), Stop))).Message);
        Assert.Contains("no folder", (await Assert.ThrowsAsync<ShelfException>(() => shelf.BackupAsync(Target("no/copy.db"), Stop))).Message);
        Assert.Contains("is a folder", (await Assert.ThrowsAsync<ShelfException>(() => shelf.BackupAsync(_bench.Folder, Stop))).Message);
        if (OperatingSystem.IsLinux())
            Assert.Contains("/proc/copy.db", (await Assert.ThrowsAsync<ShelfException>(() => shelf.BackupAsync("/proc/copy.db", Stop))).Message);
        Assert.Equal("Dear Sir", await File.ReadAllTextAsync(Target("letter.txt"), Stop));
        Assert.DoesNotContain(Directory.GetFiles(_bench.Folder), f => f.EndsWith(".part", StringComparison.Ordinal));
    }
}
