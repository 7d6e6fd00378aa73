namespace Lugbook.Trade.Valves;

/// <summary>What a type's maker allows, of one section; null where the data give nothing. Design-centre unless the type's notes say otherwise.</summary>
/// <param name="PlateVolts">Plate to cathode, V.</param>
/// <param name="PlateWatts">Plate dissipation, W.</param>
/// <param name="ScreenVolts">Screen to cathode, V.</param>
/// <param name="ScreenWatts">Screen dissipation, W.</param>
/// <param name="CathodeAmperes">Cathode current, A.</param>
/// <param name="HeaterCathodeVolts">Heater to cathode, V.</param>
public sealed record ValveLimits(double? PlateVolts, double? PlateWatts, double? ScreenVolts, double? ScreenWatts, double? CathodeAmperes, double? HeaterCathodeVolts)
{
    /// <summary>Nothing is known.</summary>
    public static ValveLimits None { get; } = new(null, null, null, null, null, null);
}

/// <summary>The limits of a handbook line as text, in the file's units; empty where nothing is given.</summary>
/// <param name="PlateVolts">max_plate_v, V.</param>
/// <param name="PlateWatts">max_plate_w, W.</param>
/// <param name="ScreenVolts">max_screen_v, V.</param>
/// <param name="ScreenWatts">max_screen_w, W.</param>
/// <param name="CathodeMilliamperes">max_cathode_ma, mA.</param>
/// <param name="HeaterCathodeVolts">max_heater_cathode_v, V.</param>
public sealed record LimitCells(string PlateVolts, string PlateWatts, string ScreenVolts, string ScreenWatts, string CathodeMilliamperes, string HeaterCathodeVolts);
