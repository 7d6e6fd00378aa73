namespace Lugbook.Trade.Preferred;

/// <summary>A series of IEC 60063; the number is how many values it has in a decade.</summary>
public enum PreferredSeries
{
    /// <summary>3 a decade.</summary>
    E3 = 3,
    /// <summary>6 a decade: today's film capacitors.</summary>
    E6 = 6,
    /// <summary>12 a decade: ±10 %.</summary>
    E12 = 12,
    /// <summary>24 a decade: ±5 %.</summary>
    E24 = 24,
    /// <summary>48 a decade: ±2 %.</summary>
    E48 = 48,
    /// <summary>96 a decade: ±1 %.</summary>
    E96 = 96,
    /// <summary>192 a decade: ±0.5 %.</summary>
    E192 = 192,
}
