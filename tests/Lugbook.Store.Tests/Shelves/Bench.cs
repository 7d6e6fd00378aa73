using System.Globalization;
using Lugbook.Store.Shelves;
using Lugbook.Store.Sqlite;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>A folder of its own for one test, with a shelf's file in it, and a clock that the test sets.</summary>
internal sealed class Bench : IDisposable
{
    public static CancellationToken Stop => TestContext.Current.CancellationToken;

    public string Folder { get; } = Directory.CreateTempSubdirectory("lugbook-store-").FullName;
    public string File => Path.Combine(Folder, "shelf.lugbook.db");
    public SetClock Clock { get; } = new();

    public Task<SqliteShelf> OpenAsync(params IInterceptor[] interceptors) =>
        SqliteShelf.OpenAsync(File, Clock, TimeSpan.FromSeconds(30), interceptors, Stop);

    /// <summary>Runs SQL on the file behind the shelf's back; returns the first value.</summary>
    public object? Sql(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }

    public long Count(string sql) => Convert.ToInt64(Sql(sql), CultureInfo.InvariantCulture);

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    public static Part Resistor(string name, double ohms = 4700) => new() { Name = name, KindAsWritten = "resistor", Value = ohms };

    public static Func<Book, Book> Adds(Part part) => book => book with { Parts = book.Parts.Add(part) };

    public static Task<StoredBook> AddPart(IShelf shelf, string book, string part) =>
        shelf.EditAsync(book, "Ada", $"{part} entered", Adds(Resistor(part)), Stop);
}

/// <summary>A clock that stands where it is put.</summary>
internal sealed class SetClock : TimeProvider
{
    public DateTimeOffset Now { get; set; } = new(2026, 3, 1, 9, 0, 0, TimeSpan.Zero);
    public override DateTimeOffset GetUtcNow() => Now;
}
