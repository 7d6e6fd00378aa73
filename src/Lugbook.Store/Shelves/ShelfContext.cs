using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Lugbook.Store.Shelves;

/// <summary>The shelf's tables, the same for every database; a derived context and a folder of migrations for each.</summary>
/// <remarks>Nothing here may be special to one database: no collations, no column types, no SQL.</remarks>
internal abstract class ShelfContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<BookRecord> Books => Set<BookRecord>();
    public DbSet<RowRecord> Rows => Set<RowRecord>();
    public DbSet<EditRecord> Edits => Set<EditRecord>();
    public DbSet<PaperRecord> Papers => Set<PaperRecord>();
    public DbSet<PaperEditRecord> PaperEdits => Set<PaperEditRecord>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcTime>();

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<BookRecord>(book =>
        {
            book.HasKey(b => b.Id);
            book.HasIndex(b => b.NameKey).IsUnique();
            book.Property(b => b.Version).IsConcurrencyToken();
        });
        modelBuilder.Entity<RowRecord>(row =>
        {
            row.HasKey(r => new { r.BookId, r.Table, r.RowId });
            row.HasOne<BookRecord>().WithMany().HasForeignKey(r => r.BookId).OnDelete(DeleteBehavior.Cascade);
        });
        modelBuilder.Entity<EditRecord>(edit =>
        {
            edit.HasKey(e => new { e.BookId, e.Number });
            edit.HasIndex(e => new { e.BookId, e.Token }).IsUnique();
            edit.HasOne<BookRecord>().WithMany().HasForeignKey(e => e.BookId).OnDelete(DeleteBehavior.Cascade);
            edit.Property(e => e.State).HasConversion<string>();
        });
        modelBuilder.Entity<PaperRecord>().HasKey(p => p.Name);
        modelBuilder.Entity<PaperEditRecord>(edit =>
        {
            edit.HasKey(e => e.Number);
            edit.Property(e => e.Number).ValueGeneratedNever();
        });
    }

    /// <summary>Times go in as UTC and come out marked as such: one database insists on it, another forgets it.</summary>
    private sealed class UtcTime() : ValueConverter<DateTime, DateTime>(
        given => given.Kind == DateTimeKind.Local ? given.ToUniversalTime() : DateTime.SpecifyKind(given, DateTimeKind.Utc),
        stored => DateTime.SpecifyKind(stored, DateTimeKind.Utc));
}
