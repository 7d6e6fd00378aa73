using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Entry;

/// <summary>How a bench note is taken.</summary>
public enum EntryMode
{
    /// <summary>Each line names its lugs.</summary>
    Normal,
    /// <summary>Each line puts one lead on the lug that was named once with "at V3-5".</summary>
    AllOnLug,
}

/// <summary>What a bench note is read against: the book so far, and where the hand was last.</summary>
public sealed record EntryContext
{
    /// <summary>The book so far.</summary>
    public required Book Book { get; init; }
    /// <summary>The mount that bare lug numbers belong to; null at the start.</summary>
    public string? LastMount { get; init; }
    /// <summary>The lug of <see cref="EntryMode.AllOnLug"/>; otherwise the last lug named.</summary>
    public string? LastLug { get; init; }
    /// <summary>The last reference entered, so that the next one of its letter is offered.</summary>
    public string? LastReference { get; init; }
    /// <summary>How the next line is taken.</summary>
    public EntryMode Mode { get; init; }

    /// <summary>The valve handbook: which socket a type needs, and which pin is its plate. Empty when there is none.</summary>
    public ValveHandbook Handbook { get; init; } = ValveHandbook.Empty;

    /// <summary>The start of a session on a book.</summary>
    public static EntryContext For(Book book, ValveHandbook? handbook = null) => new() { Book = book, Handbook = handbook ?? ValveHandbook.Empty };
}
