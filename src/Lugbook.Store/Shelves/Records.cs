namespace Lugbook.Store.Shelves;

/// <summary>A book as the database keeps it, without its rows.</summary>
internal sealed class BookRecord
{
    public long Id { get; init; }
    /// <summary>As written.</summary>
    public required string Name { get; set; }
    /// <summary>In upper case, invariant: unique.</summary>
    public required string NameKey { get; set; }
    public required string Title { get; set; }
    /// <summary>Counts edits, undos and redos; a write that expects another version fails.</summary>
    public long Version { get; set; }
    /// <summary>Orders books by their last change, whatever the clock said.</summary>
    public long ChangeOrder { get; set; }
    public DateTime CreatedUtc { get; init; }
    public DateTime ChangedUtc { get; set; }
    public int Parts { get; set; }
    public int Done { get; set; }

    public static string KeyOf(string name) => name.ToUpperInvariant();
}

/// <summary>One row of one table of a book.</summary>
internal sealed class RowRecord
{
    public long BookId { get; init; }
    public required string Table { get; init; }
    public int RowId { get; init; }
    /// <summary>Orders the rows of a table; has gaps.</summary>
    public long Place { get; set; }
    /// <summary>The row's name in upper case, invariant, for searching.</summary>
    public required string NameKey { get; set; }
    /// <summary>Everything else, as JSON.</summary>
    public required string Body { get; set; }
}

/// <summary>Whether an edit stands.</summary>
internal enum EditState
{
    /// <summary>It stands.</summary>
    Applied,
    /// <summary>Taken back; a redo puts it back.</summary>
    Undone,
    /// <summary>Taken back, and another edit came since: no redo reaches it.</summary>
    Dropped,
}

/// <summary>One edit of a book. Never deleted while the book is there.</summary>
internal sealed class EditRecord
{
    public long BookId { get; init; }
    /// <summary>Counts from 1 within the book; 1 is the book's arrival and cannot be taken back.</summary>
    public long Number { get; init; }
    public DateTime WhenUtc { get; init; }
    public required string Who { get; init; }
    public required string What { get; init; }
    /// <summary>The sender's own name for it, so that what is sent twice is stored once; null when it was made here.</summary>
    public Guid? Token { get; init; }
    public EditState State { get; set; }
    /// <summary>Who last took it back.</summary>
    public string? UndoneBy { get; set; }
    public DateTime? UndoneUtc { get; set; }
    /// <summary>The row changes, as JSON.</summary>
    public required string Changes { get; init; }
}

/// <summary>A paper of the bench as it is now.</summary>
internal sealed class PaperRecord
{
    public required string Name { get; init; }
    public required string Body { get; set; }
}

/// <summary>One edit of the papers. The newest are kept, older ones go.</summary>
internal sealed class PaperEditRecord
{
    public long Number { get; init; }
    public DateTime WhenUtc { get; init; }
    public required string Who { get; init; }
    public required string What { get; init; }
    /// <summary>The changes of papers, as JSON.</summary>
    public required string Changes { get; init; }
}
