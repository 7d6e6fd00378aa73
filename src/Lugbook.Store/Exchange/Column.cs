using System.Collections.Immutable;

namespace Lugbook.Store.Exchange;

/// <summary>What a column counts, which decides the units that its header or its cells may name.</summary>
internal enum Measure
{
    /// <summary>Words.</summary>
    Words,
    /// <summary>A whole number without a unit.</summary>
    Count,
    /// <summary>A number with decimals and without a unit.</summary>
    Number,
    /// <summary>Length; kept in millimetres.</summary>
    Length,
    /// <summary>Volts.</summary>
    Volts,
    /// <summary>Watts.</summary>
    Watts,
    /// <summary>Ohms.</summary>
    Ohms,
    /// <summary>Per cent.</summary>
    Percent,
    /// <summary>A part's value: ohms, farads or henries.</summary>
    Value,
}

/// <summary>A column that Lugbook understands.</summary>
/// <param name="Key">Its header as Lugbook writes it.</param>
/// <param name="Measure">What it counts.</param>
/// <param name="Aliases">Other headers that mean it, best first, in the normal form of <see cref="HeaderWords"/>.</param>
internal sealed record Column(string Key, Measure Measure, ImmutableArray<string> Aliases);

/// <summary>The columns of one table.</summary>
/// <param name="Name">The table: the name of its file and of its sheet.</param>
/// <param name="Titles">Other names for the file or sheet.</param>
/// <param name="Columns">All columns, in the order in which Lugbook writes them.</param>
/// <param name="Required">Alternatives; each is a set of columns that suffices.</param>
/// <param name="RowIsCalled">What one row is, for messages: "part".</param>
internal sealed record TableShape(string Name, ImmutableArray<string> Titles, ImmutableArray<Column> Columns, ImmutableArray<ImmutableArray<string>> Required, string RowIsCalled)
{
    /// <summary>A stranger's file or sheet may have this name and be something else: it is read only where its header suits.</summary>
    public bool MustSuit { get; init; }

    /// <summary>Headers that Lugbook writes, in order; the rest only helps to read what strangers write.</summary>
    public IEnumerable<string> Written => Columns.Select(c => c.Key).Where(k => k is not ("row_id" or "leads" or "rating") && !(k == "lug" && Name == "sheet"));

    /// <summary>The column of this key.</summary>
    public Column this[string key] => Columns.First(c => c.Key == key);
}
