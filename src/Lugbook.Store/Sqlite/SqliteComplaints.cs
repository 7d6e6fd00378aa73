using Lugbook.Store.Shelves;
using Microsoft.Data.Sqlite;

namespace Lugbook.Store.Sqlite;

/// <summary>What SQLite could not do, in the user's terms. Codes: sqlite.org/rescode.html.</summary>
internal static class SqliteComplaints
{
    private const int Busy = 5, Locked = 6, ReadOnly = 8, InputOutput = 10, Corrupt = 11, Full = 13, CannotOpen = 14, NotADatabase = 26;

    /// <summary>Null when the error, with all that it was caused by, is not SQLite's.</summary>
    public static ShelfException? Explain(Exception error, string path)
    {
        for (Exception? cause = error; cause is not null; cause = cause.InnerException)
            if (cause is SqliteException sqlite) return new(Message(sqlite, path), error);
        return null;
    }

    public static ShelfException NotAShelf(string path) =>
        new($"The file '{path}' is a database of another program, not a shelf. Name another file; this one was not touched.");

    public static ShelfException Newer(string path, IEnumerable<string> unknown) =>
        new($"The shelf '{path}' was written by a newer Lugbook (it has the step {string.Join(", ", unknown)}, which this one does not know). "
            + "Use the newer Lugbook, or a backup from before. The file was not touched.");

    private static string Message(SqliteException error, string path) => error.SqliteErrorCode switch
    {
        Busy or Locked => $"Another program holds the shelf '{path}' and did not let go of it in time. "
            + "Close what has it open (a second Lugbook, a database browser, a backup in progress), then try again. Nothing was changed.",
        ReadOnly => $"The shelf '{path}' cannot be written: the file, its folder or the disk is read-only. "
            + "Give yourself the right to write there, or name a file in another folder. Nothing was changed.",
        Full => $"The disk with the shelf '{path}' is full. Make room, then do it again. Nothing was changed.",
        CannotOpen => $"The shelf '{path}' cannot be opened or made: no right to write in its folder, or the folder or disk is gone. "
            + "Look at the folder's rights, or name a file in another folder. Nothing was changed.",
        NotADatabase => $"The file '{path}' is not a shelf: it is not a database at all. Name another file, or put a backup in its place. This one was not touched.",
        Corrupt => $"The shelf '{path}' is damaged. Keep the file, and put the newest backup in its place. Nothing was changed. ({error.Message})",
        InputOutput => $"The disk failed while the shelf '{path}' was read or written. Look whether the disk is still there and sound. "
            + $"What was acknowledged before is stored. ({error.Message})",
        _ => $"The shelf '{path}' could not do that. Nothing was changed. ({error.Message})",
    };
}
