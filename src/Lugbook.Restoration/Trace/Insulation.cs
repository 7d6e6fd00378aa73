using Lugbook.Circuit.Elements;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Trace;

/// <summary>What a sound capacitor lets through at an ohmmeter's volts: finite, so that a healthy "over" is a number with a spread.</summary>
/// <remarks>Common practice, no source: film and mica gigaohms, sound old paper some 150 MΩ, an electrolytic that has settled 30 s / C when old, 100 s / C when new; each within a factor of three or so.</remarks>
internal static class Insulation
{
    /// <summary>Standard deviation of the logarithm.</summary>
    public const double Sigma = 1.1;
    private const double Film = 2e9, OldPaper = 150e6, OldElectrolyticSeconds = 30, NewElectrolyticSeconds = 100;

    /// <summary>The element with its insulation, where it is a capacitor that is said to have none.</summary>
    public static Element Of(Element element, PartKind kind, bool isNew) => element is not Capacitor { LeakOhms: double.PositiveInfinity } c ? element : c with
    {
        LeakOhms = kind == PartKind.Electrolytic ? (isNew ? NewElectrolyticSeconds : OldElectrolyticSeconds) / c.Farads : kind is PartKind.Paper or PartKind.Capacitor && !isNew ? OldPaper : Film,
    };
}
