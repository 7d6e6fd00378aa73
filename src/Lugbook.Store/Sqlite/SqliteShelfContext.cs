using Lugbook.Store.Shelves;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Lugbook.Store.Sqlite;

/// <summary>The shelf's tables in SQLite. Its migrations are in Sqlite/Migrations.</summary>
internal sealed class SqliteShelfContext(DbContextOptions<SqliteShelfContext> options) : ShelfContext(options)
{
    /// <summary>For <c>dotnet ef</c> only: how to write a migration is in docs/store.md.</summary>
    internal sealed class AtDesignTime : IDesignTimeDbContextFactory<SqliteShelfContext>
    {
        public SqliteShelfContext CreateDbContext(string[] args) =>
            new(new DbContextOptionsBuilder<SqliteShelfContext>().UseSqlite("Data Source=:memory:").Options);
    }
}
