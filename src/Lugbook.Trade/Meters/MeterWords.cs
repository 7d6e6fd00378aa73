namespace Lugbook.Trade.Meters;

/// <summary>Words for what a meter measures.</summary>
public static class MeterWords
{
    /// <summary>The word for a function, as tables and pages write it.</summary>
    public static string Of(MeterFunction function) => function switch
    {
        MeterFunction.Volts => "volts",
        MeterFunction.AcVolts => "ac volts",
        MeterFunction.Ohms => "ohms",
        MeterFunction.PointerOhms => "pointer ohms",
        MeterFunction.Farads => "capacitance",
        _ => "insulation",
    };

    /// <summary>The function that a word means; null when it means none.</summary>
    public static MeterFunction? Function(string word) => word.Trim().ToLowerInvariant() switch
    {
        "volts" or "volt" or "v" or "dc volts" or "volts dc" or "dcv" or "v dc" or "vdc" or "voltage" => MeterFunction.Volts,
        "ac volts" or "volts ac" or "acv" or "v ac" or "vac" or "ac voltage" => MeterFunction.AcVolts,
        "ohms" or "ohm" or "resistance" or "r" or "Ω" or "ω" => MeterFunction.Ohms,
        "pointer ohms" or "ohms pointer" or "mid-scale ohms" or "ohms mid-scale" => MeterFunction.PointerOhms,
        "capacitance" or "capacity" or "cap" or "farads" or "c" => MeterFunction.Farads,
        "insulation" or "insulation resistance" or "megger" => MeterFunction.Insulation,
        _ => null,
    };
}
