namespace Lugbook.Circuit.Elements;

/// <summary>A triode's plate and grid current, continuous with their first derivatives in both electrodes.</summary>
/// <remarks>
/// u = Vg + Vc + Vp/µ; S = w·ln(1 + e^(u/w)), w = w₀ + w₁·Vp⁺; space current K·Sˣ. The plate takes the part q = Vp⁺/√(Vp⁺² + Vk²) of it, so that
/// nothing flows at Vp = 0 whatever the grid; Vk grows with a positive grid. Vp⁺ is a smoothed max(Vp, 0).
/// Because w grows with Vp, the amplification factor falls towards cut-off, as it does where grid wires are uneven.
/// Ig = Kg·Sg(Vg + Vcg)^1.5·(2 − q): electrons that the plate does not take fall back on a positive grid. Derivation: docs/valves.md.
/// </remarks>
/// <param name="Mu">µ, amplification factor at full current; above 0.</param>
/// <param name="Perveance">K, A/Vˣ; above 0.</param>
/// <param name="Exponent">x, near 1.5; above 1.</param>
/// <param name="ContactVolts">Vc, V: contact potential and initial velocities.</param>
/// <param name="Width">w₀, V; above 0.</param>
/// <param name="WidthPerPlateVolt">w₁; 0 or more: how remotely the plate current dies away.</param>
/// <param name="GridPerveance">Kg, A/V^1.5; 0 or more.</param>
/// <param name="GridContactVolts">Vcg, V.</param>
/// <param name="GridWidth">Width of the onset of grid current, V; above 0: initial velocities.</param>
/// <param name="KneeVolts">Vk at a negative grid, V; above 0.</param>
public sealed record TriodeLaw(
    double Mu, double Perveance, double Exponent, double ContactVolts, double Width, double WidthPerPlateVolt,
    double GridPerveance, double GridContactVolts, double GridWidth, double KneeVolts = 1.5);
