using System.Diagnostics;
using System.Globalization;
using Lugbook.Store.Tests.Shelves;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Sqlite;

/// <summary>A process killed in the midst of its work. A power cut is not tried here; that each commit is flushed is asked in SqliteFileTests.</summary>
public sealed class KillTests : IDisposable
{
    private const int Kills = 15;

    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task Every_edit_acknowledged_before_the_process_was_killed_is_there()
    {
        var total = 0L;
        for (var kill = 0; kill < Kills; kill++)
        {
            var acknowledged = await RunAndKill(after: 1 + kill * 7 % 23);
            Assert.NotEmpty(acknowledged);   // or the child did nothing and the test would prove nothing

            await using var shelf = await _bench.OpenAsync();
            var stored = await shelf.OpenAsync("radio", Stop);
            var history = await shelf.HistoryAsync("radio", Stop);
            // One edit may have been stored and not yet told.
            Assert.InRange(stored.Version, acknowledged[^1], acknowledged[^1] + 1);
            Assert.Equal(stored.Version, history.Count);
            Assert.Equal(stored.Version - 1, stored.Book.Parts.Count);
            Assert.Equal(Enumerable.Range(2, stored.Book.Parts.Count).Select(n => $"R{n}"), stored.Book.Parts.Select(p => p.Name));
            Assert.Equal("ok", _bench.Sql("PRAGMA integrity_check"));
            Assert.True(stored.Version > total);
            total = stored.Version;
        }
    }

    private async Task<List<long>> RunAndKill(int after)
    {
        var program = Path.Combine(AppContext.BaseDirectory, typeof(KillTests).Assembly.GetName().Name!);
        var start = new ProcessStartInfo(OperatingSystem.IsWindows() ? program + ".exe" : program)
        {
            RedirectStandardOutput = true, Environment = { [KilledChild.FileVariable] = _bench.File },
        };
        using var child = Process.Start(start)!;
        var acknowledged = new List<long>();
        try
        {
            while (await child.StandardOutput.ReadLineAsync(Stop).AsTask().WaitAsync(TimeSpan.FromSeconds(60), Stop) is { } line)
            {
                acknowledged.Add(long.Parse(line, CultureInfo.InvariantCulture));
                if (acknowledged.Count == after) child.Kill();   // SIGKILL; what it told until it died is read to the end
            }
        }
        finally
        {
            if (!child.HasExited) child.Kill();
        }
        await child.WaitForExitAsync(Stop);
        Assert.Equal(OperatingSystem.IsWindows() ? -1 : 128 + 9, child.ExitCode);   // it died of the signal, and not of an error
        return acknowledged;
    }
}
