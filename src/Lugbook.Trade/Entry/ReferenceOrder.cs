using System.Globalization;

namespace Lugbook.Trade.Entry;

/// <summary>References in the order in which people count: R2 before R10, C12A before C12B, letters first.</summary>
public sealed class ReferenceOrder : IComparer<string>
{
    private ReferenceOrder() { }

    /// <summary>The one order.</summary>
    public static ReferenceOrder Instance { get; } = new();

    /// <inheritdoc/>
    public int Compare(string? x, string? y)
    {
        var (a, b) = (Reference.Split(x ?? ""), Reference.Split(y ?? ""));
        var order = string.Compare(a.Letters, b.Letters, StringComparison.OrdinalIgnoreCase);
        if (order == 0) order = a.Number.CompareTo(b.Number);
        if (order == 0) order = string.Compare(a.Suffix, b.Suffix, StringComparison.OrdinalIgnoreCase);
        return order;
    }
}

/// <summary>A reference taken apart: C12A is letters C, number 12, suffix A.</summary>
internal readonly record struct Reference(string Letters, int Number, string Suffix)
{
    /// <summary>Takes a name apart; a name without a number has number 0 and no suffix.</summary>
    public static Reference Split(string name)
    {
        var start = 0;
        while (start < name.Length && !char.IsAsciiDigit(name[start])) start++;
        var end = start;
        while (end < name.Length && char.IsAsciiDigit(name[end])) end++;
        return int.TryParse(name.AsSpan(start, end - start), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? new(name[..start], number, name[end..])
            : new(name, 0, "");
    }

    /// <summary>The name without its suffix: C12.</summary>
    public string Body => Letters + Number.ToString(CultureInfo.InvariantCulture);
}
