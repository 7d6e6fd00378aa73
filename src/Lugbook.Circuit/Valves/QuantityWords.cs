namespace Lugbook.Circuit.Valves;

/// <summary>Quantities of a handbook line in words.</summary>
public static class QuantityWords
{
    /// <summary>"plate current", "cut-off grid voltage", …</summary>
    public static string Words(this Quantity quantity) => quantity switch
    {
        Quantity.PlateCurrent => "plate current",
        Quantity.ScreenCurrent => "screen current",
        Quantity.Transconductance => "transconductance",
        Quantity.PlateResistance => "plate resistance",
        Quantity.AmplificationFactor => "amplification factor",
        Quantity.CutoffVolts => "cut-off grid voltage",
        Quantity.RemoteTransconductance => "transconductance far down",
        _ => "conversion transconductance",
    };
}
