using System.Globalization;
using Lugbook.Circuit.Elements;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Map.Rules;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Netlist;

/// <summary>The line between the blades of the cord.</summary>
internal static class LineElement
{
    public const string Name = "line";
    // A house's wiring: common practice, no source.
    private const double HouseOhms = 0.4;

    /// <summary>Adds the line where both blades are known.</summary>
    /// <returns>Volts and hertz, as entered or taken.</returns>
    public static (double Volts, double Hertz) Add(NetBuilder net)
    {
        var facts = net.Map.Book.Facts;
        var blades = net.Map.LineWays.Where(w => w.Path == LinePath.Blade).Select(w => w.Node.Index).Distinct().ToArray();
        var marked = net.Map.Book.Parts.Where(p => p.Kind == PartKind.Winding && blades.Length == 2 && p.Marked?.Contains("primary", StringComparison.OrdinalIgnoreCase) == true && net.Map.IsOnLine(net.Map.NodeOf(p.LeadA)))
            .Select(WindingVolts.Of).OfType<double>().FirstOrDefault();
        var hertz = facts.LineHertz is { } h and > 0 ? h : facts.LineVolts is > 0 and < 140 ? 60 : 50;
        var volts = facts.LineVolts is { } v and > 0 ? v : marked > 0 ? marked : hertz == 60 ? 117 : 230;
        if (blades.Length != 2)
        {
            net.Unknown("line", blades.Length == 0
                ? "Where the line cord ends is not entered, so nothing that the line feeds can be told: add a mount of the kind line cord and wire its two lugs."
                : string.Create(CultureInfo.InvariantCulture, $"The line cord ends on {blades.Length} node{(blades.Length == 1 ? "" : "s")} instead of two, so the line is left out."));
            return (volts, hertz);
        }
        if (facts.LineVolts is null) net.Unknown("line", string.Create(CultureInfo.InvariantCulture, $"The set's line voltage is not entered: {volts:0} V, {hertz:0} Hz {(marked > 0 ? "is marked on its primary and" : "")} is taken. Enter it in the book's facts."));
        net.Add(new Mains(Name, blades[0], blades[1], volts, hertz, HouseOhms), Name);
        return (volts, hertz);
    }
}
