using System.Collections.Immutable;

namespace Lugbook.Store.Exchange;

/// <summary>One cell as it is written: the text everywhere, and as a number where a workbook can hold one.</summary>
/// <param name="Text">The text.</param>
/// <param name="Number">The number; null for words.</param>
public readonly record struct WrittenCell(string Text, double? Number = null)
{
    /// <summary>A number as the shortest text that reads back exactly; empty for null.</summary>
    public static WrittenCell Of(double? number) => number is { } n ? new(NumberText.Write(n), double.IsFinite(n) ? n : null) : new("");
    /// <summary>A whole number; empty for null.</summary>
    public static WrittenCell Of(int? number) => number is { } n ? new(n.ToString(System.Globalization.CultureInfo.InvariantCulture), n) : new("");
    /// <summary>Money with two decimals or more; empty for null.</summary>
    public static WrittenCell Of(decimal? money) => money is { } m ? new(m.ToString("0.00##", System.Globalization.CultureInfo.InvariantCulture), (double)m) : new("");
    /// <summary>Words; empty for null.</summary>
    public static WrittenCell Of(string? words) => new(words ?? "");
}

/// <summary>A table ready to be written.</summary>
/// <param name="Name">File or sheet.</param>
/// <param name="Headers">First row.</param>
/// <param name="Rows">The others.</param>
public sealed record WrittenTable(string Name, ImmutableArray<string> Headers, ImmutableArray<ImmutableArray<WrittenCell>> Rows);
