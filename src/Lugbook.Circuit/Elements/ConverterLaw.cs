namespace Lugbook.Circuit.Elements;

/// <summary>A pentagrid converter (or heptode): grid 1 sets the cathode current, grid 3 shares it between plate and screens (grids 2 and 4).</summary>
/// <remarks>
/// Ik = K·S(Vg1 + Vc + Vs/µs)ˣ, S and w as in <see cref="PentodeLaw"/>. Plate: Ip = Ik·τm·τ·q, τ = s/(s + L), s = w₃·ln(1 + e^(u₃/w₃)),
/// u₃ = Vg3 + Vs/µ₃s + Vp/µ₃p, q = Vp⁺/√(Vp⁺² + Vk²). The screens take the rest. While the oscillator runs, every current is the mean over a cycle of a sine
/// on grid 1 whose peak belongs to the element. Derivation and limits: docs/valves.md.
/// </remarks>
/// <param name="ScreenMu">µs, grid 1 to screens; above 0.</param>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x; above 1.</param>
/// <param name="ContactVolts">Vc, V.</param>
/// <param name="Width">w₀, V; above 0.</param>
/// <param name="WidthPerScreenVolt">w₁; 0 or more.</param>
/// <param name="PlateShare">τm, 0 to 1: the most that the plate can take.</param>
/// <param name="SignalScreenMu">µ₃s, grid 3 to screens; above 0.</param>
/// <param name="SignalPlateMu">µ₃p, grid 3 to plate; above 0.</param>
/// <param name="SignalWidth">w₃, V; above 0: how remotely grid 3 cuts the plate off.</param>
/// <param name="SignalHalf">L, V; above 0: the drive at which grid 3 lets half pass.</param>
/// <param name="KneeVolts">Vk, V; above 0.</param>
/// <param name="GridPerveance">Kg of grid 1, A/V^1.5; grid 3 is taken to have a tenth of it.</param>
/// <param name="GridContactVolts">Vcg, V.</param>
/// <param name="GridWidth">Width of the onset of grid current, V; above 0.</param>
public sealed record ConverterLaw(
    double ScreenMu, double Perveance, double Exponent, double ContactVolts, double Width, double WidthPerScreenVolt,
    double PlateShare, double SignalScreenMu, double SignalPlateMu, double SignalWidth, double SignalHalf, double KneeVolts,
    double GridPerveance, double GridContactVolts, double GridWidth);
