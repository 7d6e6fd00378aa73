using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>Dangers of the set as a whole, only those that this set shows.</summary>
internal static class SetCautions
{
    public static ImmutableArray<Caution> Of(MapResult map, LineView line, ImmutableArray<Choice> choices)
    {
        var cautions = ImmutableArray.CreateBuilder<Caution>();
        cautions.Add(Cautions.General);
        var parts = map.Book.Parts;
        if (parts.Any(p => p.Kind.IsFixedCapacitor() && p.Value >= 1e-6 * (1 - 1e-9) && p.RatedVolts is null or >= 60)) cautions.Add(Cautions.Discharge);
        if (line.HasNoTransformer)
        {
            cautions.Add(Cautions.LiveChassis);
            cautions.Add(Cautions.Cabinet);
        }
        if (parts.Any(p => p.Kind == PartKind.Glass) || map.Book.Mounts.Any(m => m.Kind == MountKind.DuodecalSocket))
        {
            cautions.Add(Cautions.CrtImplosion);
            cautions.Add(Cautions.CrtCharge);
        }
        if (map.Book.Mounts.Any(m => m.Kind == MountKind.Flyback)) cautions.Add(Cautions.Flyback);
        if (parts.Any(p => p.Kind == PartKind.SeleniumRectifier)) cautions.Add(Cautions.Selenium);
        if (choices.Any(c => c.Decision == Decision.Goes && c.Requirement.Polarity is not null)) cautions.Add(Cautions.Electrolytic);
        return cautions.ToImmutable();
    }
}
