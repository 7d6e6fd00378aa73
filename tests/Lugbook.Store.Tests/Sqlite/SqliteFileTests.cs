using System.Data.Common;
using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Lugbook.Store.Tests.Shelves;
using Lugbook.Trade;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using static Lugbook.Store.Tests.Shelves.Bench;

namespace Lugbook.Store.Tests.Sqlite;

/// <summary>Source: sqlite.org/rescode.html for result codes, sqlite.org/pragma.html for what is asked of a connection.</summary>
public sealed class SqliteFileTests : IDisposable
{
    private readonly Bench _bench = new();

    public void Dispose() => _bench.Dispose();

    private Task<ShelfException> Refused() => Assert.ThrowsAsync<ShelfException>(() => _bench.OpenAsync());

    [Fact]
    public void The_model_has_no_change_without_a_migration()
    {
        using var db = new SqliteShelfContext.AtDesignTime().CreateDbContext([]);
        Assert.False(db.Database.HasPendingModelChanges());
    }

    [Fact]
    public async Task A_new_file_has_all_migrations_and_our_mark()
    {
        await using var shelf = await _bench.OpenAsync();
        using var db = new SqliteShelfContext.AtDesignTime().CreateDbContext([]);
        db.Database.SetConnectionString($"Data Source={_bench.File};Pooling=False");
        Assert.Empty(await db.Database.GetPendingMigrationsAsync(Stop));
        Assert.Equal(0x4C554742, _bench.Count("PRAGMA application_id"));
    }

    [Fact]
    public async Task Every_connection_keeps_a_log_flushes_it_at_each_commit_and_checks_keys()
    {
        var asked = new Asked();
        await using var shelf = await _bench.OpenAsync(asked);
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await shelf.OpenAsync("radio", Stop);
        Assert.NotEmpty(asked.Answers);
        Assert.All(asked.Answers, a => Assert.Equal("wal, synchronous 2, foreign_keys 1, busy_timeout 1000", a));   // 2 is FULL
    }

    [Fact]
    public async Task A_missing_folder_is_named()
    {
        var refusal = await Assert.ThrowsAsync<ShelfException>(() => SqliteShelf.OpenAsync(Path.Combine(_bench.Folder, "no", "shelf.db"), _bench.Clock, Stop));
        Assert.Contains($"There is no folder '{Path.Combine(_bench.Folder, "no")}'", refusal.Message);
        Assert.Contains("is a folder", (await Assert.ThrowsAsync<ShelfException>(() => SqliteShelf.OpenAsync(_bench.Folder, _bench.Clock, Stop))).Message);
    }

    /// <summary>/proc is a folder in which nobody may make a file, root neither; rights alone would not stop root.</summary>
    [Fact]
    public async Task A_folder_that_cannot_be_written_is_said_to_be_so()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "/proc is Linux's.");
        var refusal = await Assert.ThrowsAsync<ShelfException>(() => SqliteShelf.OpenAsync("/proc/shelf.db", _bench.Clock, Stop));
        Assert.Contains("no right to write in its folder", refusal.Message);
    }

    [Theory]
    [InlineData(5, "Another program holds")]
    [InlineData(6, "Another program holds")]
    [InlineData(8, "read-only")]
    [InlineData(10, "disk failed")]
    [InlineData(11, "damaged")]
    [InlineData(13, "is full")]
    [InlineData(14, "cannot be opened")]
    [InlineData(26, "not a shelf")]
    [InlineData(1, "Nothing was changed")]
    public void Each_result_code_says_what_is_wrong_and_names_the_file(int code, string says)
    {
        var told = SqliteComplaints.Explain(new DbUpdateException("x", new SqliteException("y", code)), "/a/shelf.db");
        Assert.Contains(says, told!.Message);
        Assert.Contains("'/a/shelf.db'", told.Message);
        Assert.Null(SqliteComplaints.Explain(new InvalidOperationException("z"), "/a/shelf.db"));
    }

    [Fact]
    public async Task A_file_that_is_no_database_is_refused_and_not_touched()
    {
        var letter = string.Concat(Enumerable.Repeat("Dear Sir, the set hums.\n", 400));
        await File.WriteAllTextAsync(_bench.File, letter, Stop);
        Assert.Contains("not a database at all", (await Refused()).Message);
        Assert.Equal(letter, await File.ReadAllTextAsync(_bench.File, Stop));
    }

    [Fact]
    public async Task A_database_of_another_program_is_refused_and_not_touched()
    {
        _bench.Sql("CREATE TABLE Recipes (Id INTEGER); INSERT INTO Recipes VALUES (1);");
        var before = await File.ReadAllBytesAsync(_bench.File, Stop);
        Assert.Contains("database of another program", (await Refused()).Message);
        Assert.Equal(before, await File.ReadAllBytesAsync(_bench.File, Stop));
    }

    [Fact]
    public async Task A_shelf_of_a_newer_version_is_refused_and_not_touched()
    {
        await using (var shelf = await _bench.OpenAsync()) await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        _bench.Sql("INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Holograms', '99.0.0'); ALTER TABLE Books ADD COLUMN Hologram BLOB;");
        var refusal = await Refused();
        Assert.Contains("newer Lugbook", refusal.Message);
        Assert.Contains("29990101000000_Holograms", refusal.Message);
        Assert.Equal(1, _bench.Count("SELECT COUNT(*) FROM Books"));
    }

    [Fact]
    public async Task A_damaged_file_is_said_to_be_damaged()
    {
        await using (var shelf = await _bench.OpenAsync())
        {
            await shelf.AddAsync(Book.Empty("radio", "Set") with { Parts = Table<Trade.Parts.Part>.Of(Enumerable.Range(1, 300).Select(i => Resistor($"R{i}"))) }, "Ada", "begun", Stop);
        }
        var bytes = await File.ReadAllBytesAsync(_bench.File, Stop);
        Array.Fill(bytes, (byte)0xA5, 4096, bytes.Length - 4096);
        await File.WriteAllBytesAsync(_bench.File, bytes, Stop);
        Assert.Contains("damaged", (await Refused()).Message);
    }

    [Fact]
    public async Task A_shelf_that_another_program_holds_is_said_to_be_held()
    {
        await using (var shelf = await _bench.OpenAsync()) await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        await using var impatient = await SqliteShelf.OpenAsync(_bench.File, _bench.Clock, TimeSpan.FromSeconds(1), [], Stop);
        using (var other = new SqliteConnection($"Data Source={_bench.File};Pooling=False"))
        {
            await other.OpenAsync(Stop);
            using var holding = other.BeginTransaction();
            Assert.Contains("Another program holds", (await Assert.ThrowsAsync<ShelfException>(() => AddPart(impatient, "radio", "R1"))).Message);
            var opening = await Assert.ThrowsAsync<ShelfException>(() => SqliteShelf.OpenAsync(_bench.File, _bench.Clock, TimeSpan.FromSeconds(1), [], Stop));
            Assert.Contains("Another program holds", opening.Message);
            Assert.Equal(1, (await impatient.OpenAsync("radio", Stop)).Version);   // reading goes on
        }
        Assert.Equal(2, (await AddPart(impatient, "radio", "R1")).Version);
    }

    /// <summary>max_page_count makes SQLite answer as a full disk does: SQLITE_FULL.</summary>
    [Fact]
    public async Task A_full_disk_is_said_to_be_full_and_what_was_stored_stays()
    {
        var full = new Said("PRAGMA max_page_count = 1");   // less than there are: no page more
        await using var shelf = await _bench.OpenAsync(full);
        await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop);
        full.On = true;
        var refusal = await Assert.ThrowsAsync<ShelfException>(async () =>
        {
            for (var i = 0; i < 50; i++) await shelf.EditAsync("radio", "Ada", $"edit {i}", b => b with { Parts = b.Parts.Add(Resistor(new string('R', 2000))) }, Stop);
        });
        Assert.Contains("is full", refusal.Message);
        var stored = await shelf.OpenAsync("radio", Stop);
        Assert.Equal(stored.Version - 1, stored.Book.Parts.Count);
    }

    /// <summary>Source: EF Core's lock table on SQLite, which a process killed while migrating leaves behind with a row in it.</summary>
    [Fact]
    public async Task A_lock_left_by_a_process_killed_while_migrating_holds_nobody_up()
    {
        _bench.Sql("""
            PRAGMA application_id = 0x4C554742;
            CREATE TABLE "__EFMigrationsLock" ("Id" INTEGER NOT NULL CONSTRAINT "PK___EFMigrationsLock" PRIMARY KEY, "Timestamp" TEXT NOT NULL);
            INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-01-01 00:00:00');
            CREATE TABLE "__EFMigrationsHistory" ("MigrationId" TEXT NOT NULL CONSTRAINT "PK___EFMigrationsHistory" PRIMARY KEY, "ProductVersion" TEXT NOT NULL);
            """);
        await using var shelf = await _bench.OpenAsync().WaitAsync(TimeSpan.FromSeconds(15), Stop);
        Assert.Equal(1, (await shelf.AddAsync(Book.Empty("radio", "Set"), "Ada", "begun", Stop)).Version);
    }

    [Fact]
    public async Task Several_that_open_a_new_file_at_once_all_get_a_shelf()
    {
        var shelves = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => _bench.OpenAsync(), Stop)));
        for (var i = 0; i < shelves.Length; i++) await shelves[i].AddAsync(Book.Empty($"book-{i}", "Set"), "Ada", "begun", Stop);
        Assert.Equal(6, (await shelves[0].ListAsync(Stop)).Count);
        foreach (var shelf in shelves) await shelf.DisposeAsync();
    }

    private sealed class Asked : DbConnectionInterceptor
    {
        public List<string> Answers { get; } = [];

        public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            Answers.Add($"{Ask("journal_mode")}, synchronous {Ask("synchronous")}, foreign_keys {Ask("foreign_keys")}, busy_timeout {Ask("busy_timeout")}");
            return Task.CompletedTask;

            object? Ask(string pragma)
            {
                using var command = connection.CreateCommand();
                command.CommandText = $"PRAGMA {pragma}";
                return command.ExecuteScalar();
            }
        }
    }

    private sealed class Said(string sql) : DbConnectionInterceptor
    {
        public bool On { get; set; }

        public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            if (!On) return Task.CompletedTask;
            using var command = connection.CreateCommand();
            command.CommandText = sql;
            command.ExecuteNonQuery();
            return Task.CompletedTask;
        }
    }
}
