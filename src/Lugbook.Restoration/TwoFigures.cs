namespace Lugbook.Restoration;

/// <summary>A computed value for a sentence: more figures than two would claim what no circuit holds.</summary>
internal static class TwoFigures
{
    /// <summary>The value to two significant figures; above 0.</summary>
    public static double Of(double value)
    {
        var scale = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Round(value / scale) * scale;
    }
}
