using System.Collections.Immutable;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Slips;

namespace Lugbook.Restoration.Prove;

/// <summary>The cautions of the cold proof.</summary>
/// <remarks>Facts: the project's safety notes; sentences are ours.</remarks>
internal static class ProveCautions
{
    public static ImmutableArray<Caution> Of(MapResult map)
    {
        var cautions = ImmutableArray.CreateBuilder<Caution>();
        cautions.Add(Cautions.General);
        cautions.AddRange(CheckWriter.Dangers);
        if (map.IsOnLine(map.Common.Node) || map.IsOnLine(map.Chassis.Node)) cautions.Add(Cautions.LiveChassis);
        cautions.Add(new("S-no-power", "No power while one reading is not as expected, or one is not taken. These readings are an aid; that all agree permits nothing."));
        return cautions.ToImmutable();
    }
}
