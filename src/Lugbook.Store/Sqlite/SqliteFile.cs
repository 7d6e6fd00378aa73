using System.Globalization;
using Lugbook.Store.Shelves;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Lugbook.Store.Sqlite;

/// <summary>The file of a shelf: is it one, is it of this version, and making it so.</summary>
/// <remarks>
/// Migrations run as one script in one transaction of ours and not by MigrateAsync. That one puts a row in a lock table, which stays
/// there when the process is killed, and the next start waits on it without end. Here a killed process leaves the file as it was,
/// two processes that start at once wait for each other for as long as any writer does, and such a row is never looked at.
/// Never open the file by other means while a connection is open: closing it would drop SQLite's locks (POSIX).
/// </remarks>
internal static class SqliteFile
{
    /// <summary>"LUGB": in the file's header, it tells a shelf from another program's database.</summary>
    private const long ApplicationId = 0x4C554742;

    /// <summary>Makes the file or brings it up to date.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="connectionString">How to open it.</param>
    /// <param name="db">Its migrations are those to be applied.</param>
    /// <exception cref="ShelfException">It is not a shelf, or a newer one.</exception>
    /// <exception cref="SqliteException">It cannot be opened or written.</exception>
    public static void Prepare(string path, string connectionString, SqliteShelfContext db)
    {
        // Without foreign keys, since a migration may rebuild a table, and dropping the old one would empty those that point to it.
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder(connectionString) { Pooling = false, ForeignKeys = false }.ToString());
        connection.Open();
        Execute(connection, "PRAGMA synchronous=FULL; PRAGMA busy_timeout=1000;");
        // A write lock at once: a file that cannot be written is told here and not at the first edit.
        using (var transaction = connection.BeginTransaction())
        {
            Migrate(path, connection, db);
            transaction.Commit();
        }
        // Stays in the file. Not possible on some network disks; what was asked of "synchronous" holds there too.
        Execute(connection, "PRAGMA journal_mode=WAL;");
    }

    private static void Migrate(string path, SqliteConnection connection, SqliteShelfContext db)
    {
        var isEmpty = Number(connection, "SELECT COUNT(*) FROM sqlite_master") == 0;
        if (!isEmpty && Number(connection, "PRAGMA application_id") != ApplicationId) throw SqliteComplaints.NotAShelf(path);

        var applied = isEmpty ? [] : Applied(connection);
        var known = db.Database.GetMigrations().ToList();
        var unknown = applied.Except(known).ToList();
        if (unknown.Count > 0) throw SqliteComplaints.Newer(path, unknown);
        if (applied.Count == known.Count) return;

        var script = db.GetService<IMigrator>().GenerateScript(applied.LastOrDefault(), null, MigrationsSqlGenerationOptions.NoTransactions);
        Execute(connection, script);
        Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id={ApplicationId}"));
        using var check = connection.CreateCommand();
        check.CommandText = "PRAGMA foreign_key_check";
        using var orphans = check.ExecuteReader();
        if (orphans.Read())
            throw new ShelfException($"The shelf '{path}' could not be brought up to this version: rows of '{orphans.GetString(0)}' would be orphans. Nothing was changed.");
    }

    private static List<string> Applied(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = """SELECT "MigrationId" FROM "__EFMigrationsHistory" ORDER BY "MigrationId" """;
        using var reader = command.ExecuteReader();
        var applied = new List<string>();
        while (reader.Read()) applied.Add(reader.GetString(0));
        return applied;
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static long Number(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }
}
