using static Lugbook.Trade.Markings.Colours.Colour;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>One table per code. A blank in data/reference/colour-codes.csv is a null here: the colour means nothing there.</summary>
internal static class CodeTables
{
    /// <summary>IEC 60062; tolerances of orange and yellow and the pink multiplier only since 2016.</summary>
    public static CodeTable Resistor { get; } = new(
        new(Black, 0, 0) { Tempco = 250 },
        new(Brown, 1, 1) { Percent = 1, Tempco = 100 },
        new(Red, 2, 2) { Percent = 2, Tempco = 50 },
        new(Orange, 3, 3) { Percent = 0.05, Tempco = 15 },
        new(Yellow, 4, 4) { Percent = 0.02, Tempco = 25 },
        new(Green, 5, 5) { Percent = 0.5, Tempco = 20 },
        new(Blue, 6, 6) { Percent = 0.25, Tempco = 10 },
        new(Violet, 7, 7) { Percent = 0.1, Tempco = 5 },
        new(Grey, 8, 8) { Percent = 0.01, Tempco = 1 },
        new(White, 9, 9),
        new(Gold, null, -1) { Percent = 5 },
        new(Silver, null, -2) { Percent = 10 },
        new(Pink, null, -3),
        new(None) { Percent = 20 });

    /// <summary>Two-figure military resistors with a failure-rate band: the tolerances that were made. Rates from memory.</summary>
    public static CodeTable MilitaryResistor { get; } = new(
        new(Black, 0, 0),
        new(Brown, 1, 1) { Percent = 1, FailureRate = 1 },
        new(Red, 2, 2) { Percent = 2, FailureRate = 0.1 },
        new(Orange, 3, 3) { FailureRate = 0.01 },
        new(Yellow, 4, 4) { FailureRate = 0.001 },
        new(Green, 5, 5),
        new(Blue, 6, 6),
        new(Violet, 7, 7),
        new(Grey, 8, 8),
        new(White, 9, 9) { FailureWords = "the white band says that the leads are solderable, not how often it fails" },
        new(Gold, null, -1) { Percent = 5 },
        new(Silver, null, -2) { Percent = 10 },
        new(None) { Percent = 20 });

    /// <summary>RMA mica: the tolerance dot is the percentage of the same figure.</summary>
    public static CodeTable RmaMica { get; } = new(
        new(Black, 0, 0),
        new(Brown, 1, 1) { Percent = 1, Volts = 100 },
        new(Red, 2, 2) { Percent = 2, Volts = 200 },
        new(Orange, 3, 3) { Percent = 3, Volts = 300 },
        new(Yellow, 4, 4) { Percent = 4, Volts = 400 },
        new(Green, 5, 5) { Percent = 5, Volts = 500 },
        new(Blue, 6, 6) { Percent = 6, Volts = 600 },
        new(Violet, 7) { Percent = 7, Volts = 700 },
        new(Grey, 8) { Percent = 8, Volts = 800 },
        new(White, 9) { Percent = 9, Volts = 900 },
        new(Gold, null, -1) { Percent = 5, Volts = 1000 },
        new(Silver, null, -2) { Percent = 10, Volts = 2000 },
        new(None) { Percent = 20, Volts = 500 });

    /// <summary>RETMA REC-115-A and MIL-C-5A mica, and paper in the same case. Yellow and blue are met as tolerance dots, but no table explains them.</summary>
    public static CodeTable ClassedMica { get; } = new(
        new(Black, 0, 0)
        {
            Percent = 20, Class = "A", ClassWords = "tempco ±1000 ppm/K, drift ±(5 % + 1 pF)",
            Temperatures = "-55 to 70 °C", Vibration = "10 to 55 Hz",
        },
        new(Brown, 1, 1) { Percent = 1, Class = "B", ClassWords = "tempco ±500 ppm/K, drift ±(3 % + 1 pF)", Volts = 100 },
        new(Red, 2, 2) { Percent = 2, Class = "C", ClassWords = "tempco ±200 ppm/K, drift ±(0.5 % + 0.5 pF)", Temperatures = "-55 to 85 °C" },
        new(Orange, 3, 3) { Percent = 3, Class = "D", ClassWords = "tempco ±100 ppm/K, drift ±(0.3 % + 0.1 pF)", Volts = 300 },
        new(Yellow, 4, 4)
        {
            PercentUnclear = true, Class = "E", ClassWords = "tempco −20 to +100 ppm/K, drift ±(0.1 % + 0.1 pF)",
            Temperatures = "-55 to 125 °C", Vibration = "10 to 2000 Hz",
        },
        new(Green, 5) { Percent = 5, Class = "F", ClassWords = "tempco 0 to +70 ppm/K, drift ±(0.05 % + 0.1 pF)", Volts = 500 },
        new(Blue, 6) { PercentUnclear = true, Temperatures = "-55 to 150 °C" },
        new(Violet, 7),
        new(Grey, 8) { Class = "I", ClassWords = "tempco −50 to +150 ppm/K, drift ±(0.3 % + 0.2 pF)" },
        new(White, 9) { Class = "J", ClassWords = "tempco −50 to +100 ppm/K, drift ±(0.2 % + 0.2 pF)" },
        new(Gold, null, -1) { Percent = 5 },
        new(Silver, null, -2) { Percent = 10 },
        new(None) { Percent = 20 });

    /// <summary>RETMA ceramic; the extended coefficient of the six-band form follows EIA RS-198 (memory).</summary>
    public static CodeTable Ceramic { get; } = new(
        new(Black, 0, 0) { Percent = 20, Picofarads = 2, Tempco = 0, TempcoFigure = 0, TempcoMultiplier = -1 },
        new(Brown, 1, 1) { Percent = 1, Tempco = -30, TempcoMultiplier = -10 },
        new(Red, 2, 2) { Percent = 2, Tempco = -80, TempcoFigure = 1, TempcoMultiplier = -100 },
        new(Orange, 3, 3) { Tempco = -150, TempcoFigure = 1.5, TempcoMultiplier = -1000 },
        new(Yellow, 4, 4) { Tempco = -220, TempcoFigure = 2.2, TempcoMultiplier = -10000 },
        new(Green, 5) { Percent = 5, Picofarads = 0.5, Tempco = -330, TempcoFigure = 3.3, TempcoMultiplier = 1 },
        new(Blue, 6) { Tempco = -470, TempcoFigure = 4.7, TempcoMultiplier = 10 },
        new(Violet, 7) { Tempco = -750, TempcoFigure = 7.5, TempcoMultiplier = 100 },
        new(Grey, 8, -2) { Picofarads = 0.25, Tempco = 30, TempcoMultiplier = 1000 },
        new(White, 9, -1) { Percent = 10, Picofarads = 1, Tempco = 500, TempcoMultiplier = 10000 });

    /// <summary>Moulded paper tubular.</summary>
    public static CodeTable Paper { get; } = new(
        new(Black, 0, 0) { Percent = 20 },
        new(Brown, 1, 1) { Volts = 100 },
        new(Red, 2, 2) { Volts = 200 },
        new(Orange, 3, 3) { Percent = 30, Volts = 300 },
        new(Yellow, 4, 4) { Volts = 400 },
        new(Green, 5, 5) { Percent = 5, Volts = 500 },
        new(Blue, 6) { Volts = 600 },
        new(Violet, 7) { Volts = 700 },
        new(Grey, 8) { Volts = 800 },
        new(White, 9) { Percent = 10, Volts = 900 },
        new(Gold) { Percent = 5 },
        new(Silver) { Percent = 10 },
        new(None) { Percent = 20 });

    /// <summary>Flat dipped polyester film of the 1960s.</summary>
    public static CodeTable Film { get; } = new(
        new(Black, 0) { Percent = 20 },
        new(Brown, 1) { Volts = 100 },
        new(Red, 2, 2) { Volts = 250 },
        new(Orange, 3, 3),
        new(Yellow, 4, 4) { Volts = 400 },
        new(Green, 5, 5) { Percent = 5 },
        new(Blue, 6),
        new(Violet, 7),
        new(Grey, 8),
        new(White, 9) { Percent = 10 });

    /// <summary>British condenser code.</summary>
    public static CodeTable British { get; } = new(
        new(Black, 0, 0),
        new(Brown, 1, 1) { Percent = 1, Volts = 100 },
        new(Red, 2, 2) { Percent = 2, Volts = 200 },
        new(Orange, 3, 3) { Percent = 3, Volts = 300 },
        new(Yellow, 4, 4) { Percent = 4, Volts = 400 },
        new(Green, 5, 5) { Percent = 5, Volts = 500 },
        new(Blue, 6, 6) { Percent = 6, Volts = 600 },
        new(Violet, 7) { Percent = 7, Volts = 700 },
        new(Grey, 8) { Percent = 8, Volts = 800 },
        new(White, 9) { Percent = 10, Volts = 1000 });
}
