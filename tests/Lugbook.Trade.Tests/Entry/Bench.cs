using Lugbook.Trade.Entry;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>The chassis that the examples of docs/quick-entry.md are read against, and the page itself.</summary>
internal static class Bench
{
    public static string[] Page { get; } = File.ReadAllLines(Path.Combine(Root(), "docs", "quick-entry.md"));

    /// <summary>The page's first code block, entered line by line; the last mount is A.</summary>
    public static EntryContext Start { get; } = Begin();

    private static EntryContext Begin()
    {
        var block = Page.SkipWhile(l => l != "```text").Skip(1).TakeWhile(l => l != "```");
        var batch = EntryBatch.Read(string.Join("\n", block), EntryContext.For(Book.Empty("bench", "Bench")));
        Assert.Empty(batch.Complaints);
        Assert.True(batch.IsReady);
        return batch.Next with { LastMount = "A", LastReference = null };
    }

    public static EntryResult Read(string line, EntryContext? context = null) => QuickEntry.Read(line, context ?? Start);

    /// <summary>What was understood, without what was assumed, was there before, comes new or is open.</summary>
    public static string Core(EntryResult result) => result.Understood.Split(["; assumed:", "; before:", "; new:", "; open:"], StringSplitOptions.None)[0];

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Lugbook.slnx"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests run inside the repository.");
    }
}
