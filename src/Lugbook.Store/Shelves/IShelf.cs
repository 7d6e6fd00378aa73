using Lugbook.Trade;

namespace Lugbook.Store.Shelves;

/// <summary>A book on the shelf, without its contents.</summary>
/// <param name="Name">Short name.</param>
/// <param name="Title">The set in words.</param>
/// <param name="Parts">How many parts are entered.</param>
/// <param name="Done">How many positions are marked done.</param>
/// <param name="Changed">Last edit, UTC.</param>
public sealed record BookCard(string Name, string Title, int Parts, int Done, DateTimeOffset Changed);

/// <summary>A book as stored, with its place in its own history.</summary>
/// <param name="Book">The contents.</param>
/// <param name="Version">Counts up with every edit, undo and redo; the same version is the same content.</param>
/// <param name="UndoWhat">What an undo would take back; null when there is nothing.</param>
/// <param name="RedoWhat">What a redo would put back; null when there is nothing.</param>
public sealed record StoredBook(Book Book, long Version, string? UndoWhat, string? RedoWhat);

/// <summary>One entry of a book's history.</summary>
/// <param name="Number">Counts from 1 within the book.</param>
/// <param name="When">UTC.</param>
/// <param name="Who">The person or device.</param>
/// <param name="What">The edit in words: "C7 entered".</param>
/// <param name="Undone">True while the edit is taken back.</param>
/// <param name="Dropped">True when it is taken back and another edit came since, so that no redo reaches it.</param>
/// <param name="UndoneBy">Who last took it back; null when nobody did. Stays after a redo.</param>
/// <param name="UndoneWhen">When that was, UTC.</param>
public sealed record HistoryEntry(
    long Number, DateTimeOffset When, string Who, string What, bool Undone,
    bool Dropped = false, string? UndoneBy = null, DateTimeOffset? UndoneWhen = null);

/// <summary>Where books are kept. Every edit is stored in one transaction before it is acknowledged.</summary>
/// <remarks>
/// Safe to call from many threads. Errors: <see cref="BookNotFoundException"/>, <see cref="BookExistsException"/>;
/// what the database cannot do comes as <see cref="ShelfException"/> with what to do in its message; after an error nothing is changed.
/// Names are compared without regard to case. Where the clock goes back, history keeps its order: it counts, and does not look at times.
/// </remarks>
public interface IShelf
{
    /// <summary>Raised after an edit, undo, redo, arrival or removal is stored, with the book's name; after a change of name, with the old and the new one.</summary>
    /// <remarks>On the thread that made the change, in no set order between threads. Handlers must be quick and must not throw. What another process does is told by <see cref="LookAsync"/> only.</remarks>
    event Action<string>? Changed;
    /// <summary>Looks what other processes changed, arrived or removed since the last look, and raises <see cref="Changed"/> for it; the first look tells nothing.</summary>
    Task LookAsync(CancellationToken stop);
    /// <summary>All books, last changed first.</summary>
    Task<IReadOnlyList<BookCard>> ListAsync(CancellationToken stop);
    /// <summary>Opens a book.</summary>
    Task<StoredBook> OpenAsync(string name, CancellationToken stop);
    /// <summary>Puts a new book on the shelf. Its arrival is entry 1 of its history and cannot be undone.</summary>
    Task<StoredBook> AddAsync(Book book, string who, string what, CancellationToken stop);
    /// <summary>Applies an edit to the newest content and stores it. An edit that changes nothing leaves no trace.</summary>
    /// <remarks>
    /// The edit must be pure and quick: the shelf is locked for other writers meanwhile, and it runs again when another process was faster.
    /// What it throws comes out as it is, and nothing is stored. It may change the book's name. After an undo, what could be redone is dropped.
    /// </remarks>
    Task<StoredBook> EditAsync(string name, string who, string what, Func<Book, Book> edit, CancellationToken stop);
    /// <summary>The same, once however often it is sent: what arrives again under its token is known and changes nothing.</summary>
    /// <remarks>For devices that could not hear the answer. The token is kept with the history; an edit that changed nothing keeps none.</remarks>
    Task<StoredBook> EditOnceAsync(string name, Guid token, string who, string what, Func<Book, Book> edit, CancellationToken stop);
    /// <summary>Takes back the last edit that is not taken back; when there is none, returns the book as it is.</summary>
    Task<StoredBook> UndoAsync(string name, string who, CancellationToken stop);
    /// <summary>Puts back the last edit taken back, unless another edit came since; when there is none, returns the book as it is.</summary>
    Task<StoredBook> RedoAsync(string name, string who, CancellationToken stop);
    /// <summary>The history, newest first.</summary>
    Task<IReadOnlyList<HistoryEntry>> HistoryAsync(string name, CancellationToken stop);
    /// <summary>Takes a book off the shelf for good.</summary>
    Task RemoveAsync(string name, CancellationToken stop);
}

/// <summary>The shelf could not do what was asked; the message says what to do.</summary>
public class ShelfException : Exception
{
    /// <summary>With a message for the user.</summary>
    public ShelfException(string message, Exception? inner = null) : base(message, inner) { }
}

/// <summary>No book of that name.</summary>
public sealed class BookNotFoundException(string name)
    : ShelfException($"There is no book '{name}' on this shelf. The shelf page lists those that are here.");

/// <summary>A book of that name is there already.</summary>
public sealed class BookExistsException(string name)
    : ShelfException($"There is a book '{name}' on this shelf already. Choose another name.");
