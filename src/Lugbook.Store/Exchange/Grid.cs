using System.Collections.Immutable;

namespace Lugbook.Store.Exchange;

/// <summary>One line of a table as text, before anyone knows what its columns mean.</summary>
/// <param name="Line">Physical line of the file (the first of the row, when a quoted cell spans several), or row of the sheet; from 1.</param>
/// <param name="Cells">Cells from the left.</param>
/// <param name="FirstIsQuoted">True when the first cell stood in quotes, so that a # in it begins no comment.</param>
internal readonly record struct GridRow(int Line, ImmutableArray<string> Cells, bool FirstIsQuoted = false)
{
    /// <summary>Nothing but blanks.</summary>
    public bool IsBlank => Cells.All(string.IsNullOrWhiteSpace);
    /// <summary>How many cells hold something.</summary>
    public int Filled => Cells.Count(c => !string.IsNullOrWhiteSpace(c));
}

/// <summary>A table as text: from a CSV file, from a sheet of a workbook, from what was pasted.</summary>
/// <param name="Place">The file or sheet, as the user knows it.</param>
/// <param name="LineWord">"line" for a file, "row" for a sheet.</param>
/// <param name="Rows">Rows that are neither blank nor comments.</param>
/// <param name="Delimiter">What parted the cells; '\0' for a sheet.</param>
internal sealed record Grid(string Place, string LineWord, ImmutableArray<GridRow> Rows, char Delimiter);

/// <summary>How big an import may be; beyond that it is refused with a clear message, so that memory stays bounded.</summary>
internal static class ImportLimits
{
    /// <summary>Bytes of one file: 32 MiB.</summary>
    public const int FileBytes = 32 * 1024 * 1024;
    /// <summary>Rows of one table.</summary>
    public const int Rows = 100_000;
    /// <summary>Cells of one row.</summary>
    public const int Columns = 512;
    /// <summary>Complaints that are listed of one table; the rest is counted.</summary>
    public const int Complaints = 1000;
}
