using System.Collections.Concurrent;
using Lugbook.Store.Exchange;
using Lugbook.Store.Reference;
using Lugbook.Trade;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Tests;

/// <summary>The demo books and the handbook, read once from the data folder beside the tests.</summary>
internal static class DemoBooks
{
    private static readonly string Data = Path.Combine(AppContext.BaseDirectory, "data");
    private static readonly Lazy<ValveHandbook> LazyHandbook = new(() => HandbookFiles.ReadAsync(Path.Combine(Data, "valves"), CancellationToken.None).GetAwaiter().GetResult());
    private static readonly ConcurrentDictionary<string, Book> Books = new(StringComparer.Ordinal);

    public static ValveHandbook Handbook => LazyHandbook.Value;
    public static Book Radio => Named("radio");
    public static Book Amp => Named("amp");
    public static Book Tv => Named("tv");

    public static Book Named(string name) => Books.GetOrAdd(name, static n =>
    {
        var result = BookFiles.ReadAsync(Path.Combine(Data, "demo", n), CancellationToken.None).GetAwaiter().GetResult();
        return result.Book ?? throw new InvalidOperationException(string.Join('\n', result.Complaints));
    });
}
