using System.Collections.Immutable;
using Lugbook.Trade;

namespace Lugbook.Store.Exchange;

/// <summary>What is known beside the text that is being read; all may be left out.</summary>
public sealed record ReadingContext
{
    /// <summary>Nothing known.</summary>
    public static ReadingContext None { get; } = new();
    /// <summary>What the text is called in complaints: a file's name, "pasted text".</summary>
    public string Place { get; init; } = "pasted text";
    /// <summary>What M means on this set's sheet.</summary>
    public MegHabit MegHabit { get; init; }
    /// <summary>About which year the set was made.</summary>
    public int? Year { get; init; }
    /// <summary>Other markings of the set, which help to rank an ambiguous one.</summary>
    public ImmutableArray<string> OtherMarkings { get; init; } = [];
    /// <summary>True for what Lugbook itself wrote into an archive: nothing is inferred, trimmed or doubted.</summary>
    internal bool Exact { get; init; }
}
