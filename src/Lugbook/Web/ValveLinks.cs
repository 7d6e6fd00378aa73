namespace Lugbook.Web;

/// <summary>Addresses of the valve pages.</summary>
internal static class ValveLinks
{
    /// <summary>The page of a type as somebody wrote it; of "12AX7/ECC83" the first name, since an address ends at a stroke.</summary>
    /// <param name="type">The type.</param>
    /// <param name="book">A book whose own types count too; null for none.</param>
    public static string To(string type, string? book = null) => $"valve/{Uri.EscapeDataString(type.Split('/', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).FirstOrDefault() ?? type)}{(book is null ? "" : $"?book={Uri.EscapeDataString(book)}")}";
}
