namespace Lugbook.Restoration.Map;

/// <summary>Orders names as people do: V3-3 before V10-1. Case does not matter.</summary>
internal sealed class NaturalOrder : IComparer<string>
{
    public static NaturalOrder Names { get; } = new();

    public int Compare(string? x, string? y)
    {
        if (x is null || y is null) return Comparer<bool>.Default.Compare(x is not null, y is not null);
        int i = 0, j = 0;
        while (i < x.Length && j < y.Length)
        {
            if (char.IsAsciiDigit(x[i]) && char.IsAsciiDigit(y[j]))
            {
                var a = Run(x, ref i);
                var b = Run(y, ref j);
                var digits = a.Length != b.Length ? a.Length.CompareTo(b.Length) : a.SequenceCompareTo(b);
                if (digits != 0) return digits;
                continue;
            }
            var order = char.ToUpperInvariant(x[i++]).CompareTo(char.ToUpperInvariant(y[j++]));
            if (order != 0) return order;
        }
        return (x.Length - i).CompareTo(y.Length - j) is not 0 and var rest ? rest : StringComparer.OrdinalIgnoreCase.Compare(x, y);
    }

    private static ReadOnlySpan<char> Run(string text, ref int at)
    {
        while (at < text.Length - 1 && text[at] == '0' && char.IsAsciiDigit(text[at + 1])) at++;
        var start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at])) at++;
        return text.AsSpan(start, at - start);
    }
}
