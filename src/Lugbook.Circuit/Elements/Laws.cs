namespace Lugbook.Circuit.Elements;

/// <summary>How a diode conducts: I = K·S(V − V₀)ˣ + V/LeakOhms, S a smoothed max(·, 0) of width w.</summary>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x: 1.5 for a vacuum diode (Child and Langmuir), 1 for a stack whose resistance rules.</param>
/// <param name="OffsetVolts">V₀, V: contact potential (negative) or forward threshold (positive).</param>
/// <param name="WidthVolts">w, V; above 0: how softly conduction begins.</param>
/// <param name="LeakOhms">Reverse leakage, Ω.</param>
public sealed record DiodeLaw(double Perveance, double Exponent, double OffsetVolts, double WidthVolts, double LeakOhms = double.PositiveInfinity);

/// <summary>
/// A triode's plate and grid current, smooth in both electrodes.
/// u = Vg + Vc + Vp/µ, S = w·ln(1 + e^(u/w)) with w = w₀ + w₁·max(Vp, 0), Ip = K·Sˣ; Ig = Kg·Sg(Vg + Vcg)^1.5.
/// </summary>
/// <param name="Mu">µ, amplification factor; above 0.</param>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x, near 1.5.</param>
/// <param name="ContactVolts">Vc, V.</param>
/// <param name="Width">w₀, V; above 0.</param>
/// <param name="WidthPerPlateVolt">w₁; 0 or more: how remotely the plate current dies away (uneven grid, islands of emission).</param>
/// <param name="GridPerveance">Kg, A/V^1.5.</param>
/// <param name="GridContactVolts">Vcg, V.</param>
/// <param name="GridWidth">Width of the onset of grid current, V; above 0: initial velocities.</param>
public sealed record TriodeLaw(
    double Mu, double Perveance, double Exponent, double ContactVolts, double Width, double WidthPerPlateVolt,
    double GridPerveance, double GridContactVolts, double GridWidth);

/// <summary>
/// A pentode's plate, screen and grid current. Cathode current Ik = K·S(u)ˣ with u = Vg + Vc + Vs/µs + Vp/µp; the plate takes the share
/// 1 − s(Vp), where s falls from 1 at Vp = 0 to s∞ with the knee.
/// </summary>
/// <param name="ScreenMu">µs, grid-to-screen amplification factor; above 0.</param>
/// <param name="PlateMu">µp, grid-to-plate; above 0, large.</param>
/// <param name="Perveance">K, A/Vˣ.</param>
/// <param name="Exponent">x.</param>
/// <param name="ContactVolts">Vc, V.</param>
/// <param name="Width">w₀, V; above 0.</param>
/// <param name="WidthPerScreenVolt">w₁; remote cut-off valves have a large one.</param>
/// <param name="ScreenShare">s∞: share of the cathode current that the screen takes when the plate is high; 0 to 1.</param>
/// <param name="KneeVolts">Vk, V: plate voltage scale of the knee at the reference screen voltage.</param>
/// <param name="KneeSharpness">n ≥ 1: how sharply the knee bends (beam valves more than pentodes).</param>
/// <param name="GridPerveance">Kg, A/V^1.5.</param>
/// <param name="GridContactVolts">Vcg, V.</param>
/// <param name="GridWidth">Width of the onset of grid current, V.</param>
public sealed record PentodeLaw(
    double ScreenMu, double PlateMu, double Perveance, double Exponent, double ContactVolts, double Width, double WidthPerScreenVolt,
    double ScreenShare, double KneeVolts, double KneeSharpness,
    double GridPerveance, double GridContactVolts, double GridWidth);
