using System.Text.Json.Serialization;

namespace Lugbook.Store.History;

/// <summary>Which way a list of changes is applied.</summary>
public enum Direction
{
    /// <summary>From before to after: an edit, or a redo.</summary>
    Forward,
    /// <summary>From after to before: an undo.</summary>
    Backward,
}

/// <summary>What an edit did to one row.</summary>
/// <remarks>
/// A place is an index in the table, from 0, and is given only when the row came, left, or moved past another that stayed; a row
/// that shifts because others came or left has no places. So: came, only <c>After…</c>; left, only <c>Before…</c>;
/// moved, both places; altered, both bodies; moved and altered, all four.
/// Two entries are not rows of a table: "facts" is the set as a whole, "name" is the book's name as a JSON string; both have <c>RowId</c> 1.
/// </remarks>
/// <param name="Table">The table's stored name: "parts".</param>
/// <param name="RowId">Identity of the row within the table; 1 or more.</param>
/// <param name="BeforePlace">Index before the edit.</param>
/// <param name="AfterPlace">Index after the edit.</param>
/// <param name="BeforeJson">The row before, as one JSON object without its identity.</param>
/// <param name="AfterJson">The row after.</param>
public sealed record RowChange(
    string Table,
    int RowId,
    int? BeforePlace,
    int? AfterPlace,
    [property: JsonConverter(typeof(RawJson))] string? BeforeJson,
    [property: JsonConverter(typeof(RawJson))] string? AfterJson)
{
    /// <summary>The same change seen the other way.</summary>
    public RowChange Reversed() => new(Table, RowId, AfterPlace, BeforePlace, AfterJson, BeforeJson);
}
