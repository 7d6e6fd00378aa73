using System.Globalization;
using System.Text;

namespace Lugbook.Trade.Text;

/// <summary>Headers without what makes them differ by accident: case, accents, dots, dashes, underscores, blanks, quotes.</summary>
public static class HeaderText
{
    /// <summary>The normal form: lower case, no accents, single blanks; letters, figures, %, + and # are kept.</summary>
    public static string Normal(string header)
    {
        ArgumentNullException.ThrowIfNull(header);
        var text = new StringBuilder(header.Length);
        foreach (var c in header.Normalize(NormalizationForm.FormD))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) == UnicodeCategory.NonSpacingMark) continue;
            if (c is 'ß') text.Append("ss");
            else if (c is '%' or '+' or '#' || char.IsLetterOrDigit(c)) text.Append(char.ToLowerInvariant(c));
            else if (text.Length > 0 && text[^1] != ' ') text.Append(' ');
        }
        return text.ToString().Trim();
    }
}
