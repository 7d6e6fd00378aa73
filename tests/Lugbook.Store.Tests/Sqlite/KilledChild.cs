using System.Globalization;
using System.Text;
using Lugbook.Store.Sqlite;
using Lugbook.Store.Tests.Shelves;
using Lugbook.Trade;

namespace Lugbook.Store.Tests.Sqlite;

/// <summary>What the child of <see cref="KillTests"/> does: edits one after the other, each told only once it is acknowledged, until it is killed.</summary>
internal static class KilledChild
{
    /// <summary>The environment variable that makes this program the child: the shelf's file.</summary>
    public const string FileVariable = "LUGBOOK_STORE_TESTS_CHILD_ON";

    public static async Task<int> RunAsync(string file)
    {
        var stop = CancellationToken.None;
        await using var output = Console.OpenStandardOutput();
        await using var shelf = await SqliteShelf.OpenAsync(file, TimeProvider.System, stop);
        if ((await shelf.ListAsync(stop)).Count == 0) await shelf.AddAsync(Book.Empty("radio", "Set"), "child", "begun", stop);
        for (var i = 0; i < 5000; i++)
        {
            var stored = await shelf.EditAsync("radio", "child", "R entered", b => b with { Parts = b.Parts.Add(Bench.Resistor($"R{b.Parts.Count + 2}")) }, stop);
            await output.WriteAsync(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{stored.Version}\n")), stop);
            await output.FlushAsync(stop);
        }
        return 1;   // nobody killed it: the parent takes that for a failure
    }
}
