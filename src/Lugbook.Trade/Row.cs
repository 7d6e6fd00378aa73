using Lugbook.Trade.Text;

namespace Lugbook.Trade;

/// <summary>One line of a book's table.</summary>
/// <remarks><see cref="Id"/> is the row's identity and outlives a change of name; 0 means "not yet in a table".</remarks>
public abstract record Row
{
    /// <summary>Identity within its table; 1 or more once added.</summary>
    public int Id { get; init; }

    /// <summary>What people call it: R3, V1-5, W12. Two rows of one name are a contradiction, not an error.</summary>
    public required string Name { get; init; }

    /// <summary>Columns that Lugbook does not know.</summary>
    public Extras Extras { get; init; } = Extras.None;
}
