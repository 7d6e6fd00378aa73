namespace Lugbook.Trade.Quantities;

/// <summary>The units in which the trade counts; values are kept in these, never in multiples.</summary>
public enum Unit
{
    /// <summary>Resistance, Ω.</summary>
    Ohm,
    /// <summary>Capacitance, F.</summary>
    Farad,
    /// <summary>Inductance, H.</summary>
    Henry,
    /// <summary>Voltage, V.</summary>
    Volt,
    /// <summary>Power, W.</summary>
    Watt,
    /// <summary>Current, A.</summary>
    Ampere,
}
