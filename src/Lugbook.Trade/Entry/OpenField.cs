namespace Lugbook.Trade.Entry;

/// <summary>What may still be missing of a part, most needed first.</summary>
public enum PartField
{
    /// <summary>On which lugs its leads are.</summary>
    Leads,
    /// <summary>Its value; for a winding the DC resistance.</summary>
    Value,
    /// <summary>Its type, when that is all that is marked on it: a valve, a fuse, a diode.</summary>
    Type,
    /// <summary>Which lead is + or the cathode.</summary>
    PlusLead,
    /// <summary>Its rated volts.</summary>
    RatedVolts,
    /// <summary>Its rated watts.</summary>
    RatedWatts,
    /// <summary>What kind of part or of capacitor it is.</summary>
    Kind,
}

/// <summary>One field of one part that is still to be filled in.</summary>
/// <param name="Part">The part's reference.</param>
/// <param name="Field">Which field.</param>
/// <param name="Say">In words: "second lead", "rated volts".</param>
public sealed record OpenField(string Part, PartField Field, string Say);
