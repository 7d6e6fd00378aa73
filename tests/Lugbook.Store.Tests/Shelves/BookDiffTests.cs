using CsCheck;
using Lugbook.Store.History;
using Lugbook.Trade;
using Lugbook.Trade.Parts;

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Source: the definition of a difference; no outside figures.</summary>
public class BookDiffTests
{
    private static readonly Book Three = Book.Empty("radio", "A receiver") with
    {
        Parts = Table<Part>.Of([Resistor("R1"), Resistor("R2"), Resistor("R3")]),
    };

    private static Part Resistor(string name) => new() { Name = name, KindAsWritten = "resistor" };

    [Fact]
    public void Applying_the_difference_of_two_books_leads_from_one_to_the_other_and_back() =>
        RandomBooks.Pairs.Sample(pair =>
        {
            var changes = BookDiff.Between(pair.Before, pair.After);
            return BookDiff.Apply(pair.Before, changes, Direction.Forward).Equals(pair.After)
                && BookDiff.Apply(pair.After, changes, Direction.Backward).Equals(pair.Before);
        }, iter: 1000);

    [Fact]
    public void A_difference_survives_being_stored_as_text() =>
        RandomBooks.Pairs.Sample(pair =>
        {
            var changes = BookDiff.Between(pair.Before, pair.After);
            return RowJson.Read<RowChange[]>(RowJson.Write(changes)).SequenceEqual(changes);
        }, iter: 300);

    [Fact]
    public void Equal_books_do_not_differ() =>
        RandomBooks.Any.Sample(book => BookDiff.Between(book, book with { Parts = Table<Part>.Of([.. book.Parts]) }).IsEmpty, iter: 200);

    [Fact]
    public void Removing_the_first_row_is_one_change_although_all_others_shift()
    {
        var change = Assert.Single(BookDiff.Between(Three, Three with { Parts = Three.Parts.Remove(1) }));
        Assert.Equal(("parts", 1, 0, (int?)null), (change.Table, change.RowId, change.BeforePlace!.Value, change.AfterPlace));
        Assert.NotNull(change.BeforeJson);
        Assert.Null(change.AfterJson);
    }

    [Fact]
    public void Moving_the_last_row_to_the_front_is_one_change_without_content()
    {
        var moved = Three with { Parts = Table<Part>.Of([Three.Parts[2], Three.Parts[0], Three.Parts[1]]) };
        Assert.Equal(new RowChange("parts", 3, 2, 0, null, null), Assert.Single(BookDiff.Between(Three, moved)));
    }

    [Fact]
    public void Altering_a_row_is_one_change_without_places()
    {
        var change = Assert.Single(BookDiff.Between(Three, Three with { Parts = Three.Parts.Replace(Three.Parts[1] with { Value = 4700 }) }));
        Assert.Equal((null, null), (change.BeforePlace, change.AfterPlace));
        Assert.Equal("""{"kindAsWritten":"resistor","name":"R2"}""", change.BeforeJson);
        Assert.Equal("""{"kindAsWritten":"resistor","value":4700,"name":"R2"}""", change.AfterJson);
    }

    [Fact]
    public void A_change_that_does_not_fit_the_book_is_refused()
    {
        var changes = BookDiff.Between(Three, Three with { Parts = Three.Parts.Add(Resistor("R4")) });
        var after = BookDiff.Apply(Three, changes, Direction.Forward);
        Assert.Contains("there already", Assert.Throws<InvalidOperationException>(() => BookDiff.Apply(after, changes, Direction.Forward)).Message);
        Assert.Contains("not there", Assert.Throws<InvalidOperationException>(() => BookDiff.Apply(Three, changes, Direction.Backward)).Message);
        RowChange stranger = new("sketches", 1, null, 0, null, "{}");
        Assert.Contains("no such table", Assert.Throws<InvalidOperationException>(() => BookDiff.Apply(Three, [stranger], Direction.Forward)).Message);
    }

    [Fact]
    public void Every_table_of_a_book_is_stored() =>
        Assert.Equal(
            typeof(Book).GetProperties().Select(p => p.PropertyType).Where(t => t.IsGenericType && t.GetGenericTypeDefinition() == typeof(Table<>)).Select(t => t.GenericTypeArguments[0]),
            BookTables.All.Select(t => t.RowType));
}
