using System.Collections.Immutable;

namespace Lugbook.Trade.Text;

/// <summary>One line of a table before anyone knows what its columns mean.</summary>
/// <param name="Line">Line of the file or row of the sheet, from 1.</param>
/// <param name="Cells">Cells from the left, as written.</param>
public readonly record struct LooseRow(int Line, ImmutableArray<string> Cells)
{
    /// <summary>The cell at an index, trimmed; null when it is missing or blank.</summary>
    public string? this[int index] => index >= 0 && index < Cells.Length && Cells[index].Trim() is { Length: > 0 } text ? text : null;
}

/// <summary>A table as text: a CSV file, a sheet of a workbook, something pasted.</summary>
/// <param name="Place">The file or sheet as the user knows it.</param>
/// <param name="LineWord">"line" for a file, "row" for a sheet.</param>
/// <param name="Rows">Rows that are neither blank nor comments.</param>
public sealed record LooseTable(string Place, string LineWord, ImmutableArray<LooseRow> Rows);
