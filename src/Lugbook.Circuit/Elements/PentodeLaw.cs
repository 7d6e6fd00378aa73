namespace Lugbook.Circuit.Elements;

/// <summary>A pentode's or beam valve's plate, screen and grid current, continuous with their first derivatives in all electrodes.</summary>
/// <remarks>
/// Cathode current Ik = K·[(1 − f)·S(u, w)ˣ + f·S(u, t·w)ˣ] with u = Vg + Vc + Vs/µs + Vp/µp, S(u, w) = w·ln(1 + e^(u/w)), w = w₀ + w₁·Vs⁺. The second
/// term is the open part of a variable-mu grid. Division: r = (Vp⁺/Vk)ⁿ, Vk = 1 V + κ·µs·S;
/// Ip = Ik·r/(1 + r·(1 + R)), Is = the rest, R = R∞ + B·[Vs⁺/(Vp⁺ + Vs⁺ + 1 V)]³. So the sum hardly changes through the knee, the screen takes what the
/// plate does not, and at all plate voltages no current is negative. Derivation: docs/valves.md.
/// </remarks>
/// <param name="ScreenMu">µs, grid-to-screen amplification factor; above 0.</param>
/// <param name="PlateMu">µp, grid-to-plate; above 0, large.</param>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x; above 1.</param>
/// <param name="ContactVolts">Vc, V.</param>
/// <param name="Width">w₀, V; above 0.</param>
/// <param name="WidthPerScreenVolt">w₁; 0 or more.</param>
/// <param name="RemoteShare">f, 0 to 1: the part of the cathode under the open part of the grid; 0 in a sharp cut-off valve.</param>
/// <param name="RemoteWidening">t, 1 or more: how many times more remote that part is.</param>
/// <param name="ScreenRatio">R∞: screen over plate current with the plate high; above 0.</param>
/// <param name="ScreenFall">B, 0 or more: how much the ratio rises as the plate comes down to 0; an eighth of it at Vp = Vs.</param>
/// <param name="Knee">κ, dimensionless: knee voltage over µs·S; above 0.</param>
/// <param name="KneeSharpness">n, 1 or more: how sharply the knee bends (beam valves more than pentodes).</param>
/// <param name="GridPerveance">Kg, A/V^1.5; 0 or more.</param>
/// <param name="GridContactVolts">Vcg, V.</param>
/// <param name="GridWidth">Width of the onset of grid current, V; above 0.</param>
public sealed record PentodeLaw(
    double ScreenMu, double PlateMu, double Perveance, double Exponent, double ContactVolts, double Width, double WidthPerScreenVolt,
    double RemoteShare, double RemoteWidening, double ScreenRatio, double ScreenFall, double Knee, double KneeSharpness,
    double GridPerveance, double GridContactVolts, double GridWidth);
