using Lugbook.Restoration.Layout;
using Lugbook.Restoration.Solve;

namespace Lugbook.Restoration.Fit;

/// <summary>What the sheet can rest on besides map and choices; each part of it may be missing.</summary>
/// <param name="Layout">Where everything lies; null: computed here, if any lug is measured.</param>
/// <param name="Solved">The solved set, for volts between neighbours; null: no volts are known.</param>
public sealed record FitBasis(ChassisLayout? Layout = null, SolveResult? Solved = null);
