namespace Lugbook.Drawing.Labels;

/// <summary>How wide a text will be, whichever plain sans-serif the reader has: on the generous side.</summary>
internal static class TextWidth
{
    /// <summary>Width in the unit of the type's size.</summary>
    public static double Of(string text, double size)
    {
        double em = 0;
        foreach (var c in text)
            em += c switch
            {
                'i' or 'j' or 'l' or 'I' or '.' or ',' or ':' or ';' or '\'' or '|' or '!' => 0.34,
                ' ' or 'f' or 't' or 'r' or '-' or '(' or ')' or '/' => 0.40,
                'M' or 'W' or 'm' or 'w' or '%' or '@' or 'Ω' or '✓' => 0.90,
                >= 'A' and <= 'Z' => 0.72,
                _ => 0.62,
            };
        return em * size;
    }
}
