using Lugbook.Store.Shelves;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;

namespace Lugbook.Store.Sqlite;

/// <summary>A shelf in one SQLite file, with a write-ahead log beside it while it is open.</summary>
/// <remarks>Several processes may have the file open at once, on one machine; over a network disk SQLite's locks are not to be trusted.</remarks>
public sealed class SqliteShelf : DatabaseShelf
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly string _connectionString;
    private readonly PooledDbContextFactory<SqliteShelfContext> _contexts;

    private SqliteShelf(string path, string connectionString, TimeProvider clock, IReadOnlyList<IInterceptor> interceptors) : base(clock)
    {
        Path = path;
        _connectionString = connectionString;
        var options = new DbContextOptionsBuilder<SqliteShelfContext>()
            .UseSqlite(connectionString)
            .AddInterceptors([new SqlitePragmas(), .. interceptors]);
        _contexts = new(options.Options, poolSize: 16);
    }

    /// <summary>Full path of the file.</summary>
    public string Path { get; }

    /// <summary>Opens the shelf in a file; makes the file when there is none, and brings one of an earlier version up to this one.</summary>
    /// <param name="path">The file; its folder must be there.</param>
    /// <param name="clock">Tells the time of edits.</param>
    /// <param name="stop">Gives up between steps.</param>
    /// <exception cref="ShelfException">The folder is missing or may not be written, the file is no shelf, or a newer one, or another program holds it.</exception>
    public static Task<SqliteShelf> OpenAsync(string path, TimeProvider clock, CancellationToken stop) => OpenAsync(path, clock, Patience, [], stop);

    internal static async Task<SqliteShelf> OpenAsync(
        string path, TimeProvider clock, TimeSpan patience, IReadOnlyList<IInterceptor> interceptors, CancellationToken stop)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        ArgumentNullException.ThrowIfNull(clock);
        stop.ThrowIfCancellationRequested();
        var full = System.IO.Path.GetFullPath(path);
        if (Directory.Exists(full)) throw new ShelfException($"'{full}' is a folder. Name a file in it, such as '{System.IO.Path.Combine(full, "shelf.lugbook.db")}'.");
        if (System.IO.Path.GetDirectoryName(full) is { } folder && !Directory.Exists(folder))
            throw new ShelfException($"There is no folder '{folder}' for the shelf '{System.IO.Path.GetFileName(full)}'. Make the folder, or name a file in another one.");

        var connectionString = new SqliteConnectionStringBuilder
        {
            DataSource = full, Mode = SqliteOpenMode.ReadWriteCreate, DefaultTimeout = Math.Max(1, (int)patience.TotalSeconds),
        }.ToString();
        var shelf = new SqliteShelf(full, connectionString, clock, interceptors);
        try
        {
            // SQLite has no asynchronous calls: the wait for another program's lock is kept off the caller's thread.
            await Task.Run(() =>
            {
                using var db = shelf._contexts.CreateDbContext();
                SqliteFile.Prepare(full, connectionString, db);
            }, stop);
            return shelf;
        }
        catch (SqliteException error)
        {
            throw SqliteComplaints.Explain(error, full)!;
        }
    }

    /// <summary>Writes a copy of the whole shelf to a new file, as it stands at one moment; edits may go on meanwhile.</summary>
    /// <remarks>The file appears under its name only when it is complete and on the disk. It is a shelf and can be opened as one.</remarks>
    /// <param name="path">The new file; its folder must be there, and no file of that name.</param>
    /// <param name="stop">Gives up before the copy starts.</param>
    /// <exception cref="ShelfException">There is such a file, no such folder, no right to write there, or no room.</exception>
    public async Task BackupAsync(string path, CancellationToken stop)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        var full = System.IO.Path.GetFullPath(path);
        if (Directory.Exists(full)) throw new ShelfException($"'{full}' is a folder. Name a file in it for the backup.");
        if (File.Exists(full)) throw new ShelfException($"There is a file '{full}' already, and a backup never overwrites. Name another one.");
        if (System.IO.Path.GetDirectoryName(full) is { } folder && !Directory.Exists(folder))
            throw new ShelfException($"There is no folder '{folder}' for the backup. Make it, or name another one.");

        var unfinished = $"{full}.{Guid.NewGuid():N}.part";
        await Guarded(() => Task.Run(() =>
        {
            try
            {
                Copy(unfinished);
                using (var copy = new FileStream(unfinished, FileMode.Open, FileAccess.ReadWrite)) copy.Flush(flushToDisk: true);
                File.Move(unfinished, full);
                return true;
            }
            catch (SqliteException error)
            {
                throw SqliteComplaints.Explain(error, full)!;
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException)
            {
                throw new ShelfException($"The backup '{full}' could not be written: {error.Message} The shelf itself is as it was.", error);
            }
            finally
            {
                File.Delete(unfinished);
            }
        }, stop));
    }

    private void Copy(string to)
    {
        using var connection = new SqliteConnection(_connectionString);
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandTimeout = 0;
        command.CommandText = "VACUUM INTO $to";
        command.Parameters.AddWithValue("$to", to);
        command.ExecuteNonQuery();
    }

    private protected override ShelfContext NewContext() => _contexts.CreateDbContext();

    // Deferred: a reader takes no lock and sees the state of its first query, whatever is committed meanwhile.
    private protected override async Task<IAsyncDisposable> BeginReadAsync(ShelfContext db, CancellationToken stop)
    {
        await db.Database.OpenConnectionAsync(stop);
        var transaction = ((SqliteConnection)db.Database.GetDbConnection()).BeginTransaction(deferred: true);
        await db.Database.UseTransactionAsync(transaction, stop);
        return new Reading(db, transaction);
    }

    // Immediate: the write lock is taken before the first query, so that what an edit starts from is the newest.
    private protected override Task<IDbContextTransaction> BeginWriteAsync(ShelfContext db, CancellationToken stop) => db.Database.BeginTransactionAsync(stop);

    private protected override ShelfException? Explain(Exception error) => SqliteComplaints.Explain(error, Path);

    private protected override ValueTask CloseAsync()
    {
        using var connection = new SqliteConnection(_connectionString);
        SqliteConnection.ClearPool(connection);
        return ValueTask.CompletedTask;
    }

    /// <summary>A transaction that EF did not begin and so does not end.</summary>
    private sealed class Reading(ShelfContext db, SqliteTransaction transaction) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            await db.Database.UseTransactionAsync(null);
            await transaction.DisposeAsync();
            await db.Database.CloseConnectionAsync();
        }
    }
}
