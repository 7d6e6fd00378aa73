using System.Collections.Immutable;

namespace Lugbook.Restoration.Wake;

/// <summary>The cautions of the first power.</summary>
/// <remarks>Facts: the project's safety notes; sentences are ours.</remarks>
internal static class WakeCautions
{
    public const string Alone = "Not alone and not tired; somebody near knows where the switch is.";
    public const string OneHand = "Clip the meter's black lead first, then one hand only, insulated probe, no rings, dry floor.";
    public const string Speaker = "Loudspeaker or a dummy load stays connected: an unloaded output transformer can arc.";
    public const string Electrolytics = "Old electrolytics may vent or burst: eyes protected, cover on, stay back for the first minutes; switch off if a body warms.";
    public const string NotAnIsolator = "A variable transformer does not isolate.";
    public const string Fire = "Never leave it running alone in its first hours.";

    /// <summary>May the chassis or common be joined to the line?</summary>
    public static bool IsLive(WakeSet set)
    {
        var map = set.Solved.Netlist.Map;
        return map.Common.Node is { } common && map.IsOnLine(common);
    }

    public static ImmutableArray<string> Of(WakeSet set, WakeEquipment equipment)
    {
        var cautions = ImmutableArray.CreateBuilder<string>();
        cautions.Add("This work can kill. Local codes and licensed practice come first; leave to a qualified person what you are not trained for. These numbers are an aid and permit nothing.");
        cautions.Add("Cold proof first: no power before the readings of Prove are done.");
        cautions.Add("A lamp in series limits the current of a fault. It is no protection against shock.");
        if (IsLive(set)) cautions.Add("This set has no isolation from the line: its chassis or common can be at full line voltage whichever way the plug is in.");
        if (equipment.IsolationVoltAmperes is not null) cautions.Add("An isolating transformer takes away the path to earth, not the shock between two points; only one set on it.");
        if (set.Rectifiers.Any(d => !d.Law.NeedsHeat && d.Law.LeakOhms < 1e6)) cautions.Add("A failing selenium stack smells foul and is poisonous: switch off, air the room, do not breathe it.");
        cautions.Add("After every switch-off: drain through a resistor, measure, wait a minute, measure again. Never trust a computed time.");
        return cautions.ToImmutable();
    }
}
