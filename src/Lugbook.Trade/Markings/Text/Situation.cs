using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>What is known around a value while its meanings are weighed.</summary>
/// <param name="Context">What the caller knows.</param>
/// <param name="Facts">What else the marking says.</param>
/// <param name="HasVolts">A voltage is marked.</param>
internal sealed record Situation(MarkingContext Context, Facts Facts, bool HasVolts)
{
    /// <summary>The kind: the more telling of the caller's and the marking's own; null when neither is known.</summary>
    public PartKind? Kind { get; } = KindOf(Context.Kind, Facts.Kind);

    /// <summary>The lowest voltage marked, V; null when none is.</summary>
    public double? Volts { get; init; }

    /// <summary>Is a capacitor known or shown by what else is marked?</summary>
    public bool ShowsCapacitor => Kind is { } k ? k.IsCapacitor()
        : HasVolts || Facts.Classes.Count > 0 || Facts.TempcoPpm is not null || Facts.Dielectric is not null || Facts.Polarised || Facts.TolerancePicofarads is not null || Facts.Tolerance is { IsSymmetric: false } || Facts.VoltTraits != VoltTraits.None;

    /// <summary>May this kind have a value in this unit? True when the kind is not known.</summary>
    public bool Fits(Unit unit) => Kind is not { } k || PartKinds.UnitOf(k) is not { } own || own == unit || (unit == Unit.Henry && k == PartKind.Winding);

    private static PartKind? KindOf(PartKind? given, PartKind? read)
    {
        if (given is null or PartKind.Other) return read;
        if (given == PartKind.Capacitor && read is { } r && r.IsCapacitor()) return r;
        return given;
    }
}
