using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Lugbook.Store.Sqlite;

/// <summary>What each connection is told when it is opened.</summary>
/// <remarks>
/// synchronous=FULL: with a write-ahead log the log is flushed to the disk at each commit, so that an acknowledged edit survives a
/// power cut (sqlite.org/pragma.html#pragma_synchronous). busy_timeout: SQLite's own wait, finer than the provider's loop around it.
/// </remarks>
internal sealed class SqlitePragmas : DbConnectionInterceptor
{
    public const string Text = "PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA busy_timeout=1000;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Tell(connection);

    public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Tell(connection);
        return Task.CompletedTask;
    }

    private static void Tell(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Text;
        command.ExecuteNonQuery();
    }
}
