namespace Lugbook.Trade.Entry;

/// <summary>Tells pasted spreadsheet rows from pasted bench notes.</summary>
public static class PastedRows
{
    /// <summary>True for tab-separated lines, or for two or more lines with the same number of semicolons, two at least.</summary>
    /// <remarks>One line with semicolons is a bench note: its sentences use them too.</remarks>
    public static bool LooksLikeTable(string text)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n').Where(l => l.Trim().Length > 0).ToArray();
        if (lines.Length == 0) return false;
        if (lines.All(l => l.Contains('\t'))) return lines.Length > 1 || lines[0].Count(c => c == '\t') > 1;
        var semicolons = lines[0].Count(c => c == ';');
        return lines.Length > 1 && semicolons > 1 && lines.All(l => l.Count(c => c == ';') == semicolons);
    }
}
