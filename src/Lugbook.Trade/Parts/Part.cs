using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Parts;

/// <summary>One end of a part and the lug it is soldered to.</summary>
/// <param name="Letter">'a', 'b' or 'c'; a control's slider is 'c'.</param>
/// <param name="Lug">The lug's name as written; it may not exist, which is a contradiction to report.</param>
public readonly record struct Lead(char Letter, string Lug);

/// <summary>A part of the chassis as it was found: what is marked on it and which lead is on which lug.</summary>
/// <remarks>
/// Null means "not known yet", never zero. Values are in the unit's base (Ω, F, V, W). Of a transformer each winding is a part.
/// A valve has no leads: it plugs into the mount of its own name, and <see cref="Marked"/> is its type.
/// </remarks>
public sealed record Part : Row
{
    /// <summary>The kind as people wrote it.</summary>
    public required string KindAsWritten { get; init; }
    /// <summary>What is printed on the part or on the sheet; for a valve its type. May contain '?'.</summary>
    public string? Marked { get; init; }
    /// <summary>Nominal value in <see cref="Unit"/>; for a winding its DC resistance, for a lamp its hot resistance.</summary>
    public double? Value { get; init; }
    /// <summary>Unit of the value; null when the part has none.</summary>
    public Unit? Unit { get; init; }
    /// <summary>Rated voltage, V.</summary>
    public double? RatedVolts { get; init; }
    /// <summary>Rated power, W.</summary>
    public double? RatedWatts { get; init; }
    /// <summary>Marked tolerance; null when nothing is marked.</summary>
    public Tolerance? Tolerance { get; init; }
    /// <summary>Lug of the first lead.</summary>
    public string? LeadA { get; init; }
    /// <summary>Lug of the second lead.</summary>
    public string? LeadB { get; init; }
    /// <summary>Lug of the third lead: a control's slider.</summary>
    public string? LeadC { get; init; }
    /// <summary>The lead that is + (an electrolytic) or the cathode (a rectifier): 'a' or 'b'.</summary>
    public char? PlusLead { get; init; }
    /// <summary>The body that several parts share: a can, a gang, a transformer.</summary>
    public string? Group { get; init; }
    /// <summary>Colour bands or dots in reading order, or the symbol of a can's section.</summary>
    public string? Code { get; init; }
    /// <summary>Anything else.</summary>
    public string? Note { get; init; }

    /// <summary>Where the middle of its body lies, to the right, mm, seen from beneath; null: where the program would lay it.</summary>
    public double? BodyX { get; init; }
    /// <summary>Where the middle of its body lies, to the rear, mm.</summary>
    public double? BodyY { get; init; }
    /// <summary>Turn of its body, degrees clockwise seen from beneath; 0: lead a to the left. Null: along the line between its lugs.</summary>
    public double? BodyTurn { get; init; }

    /// <summary>The kind as Lugbook understands it.</summary>
    [JsonIgnore]
    public PartKind Kind => PartKinds.Of(KindAsWritten);

    /// <summary>The leads that are on a lug, in order.</summary>
    [JsonIgnore]
    public ImmutableArray<Lead> Leads
    {
        get
        {
            var leads = ImmutableArray.CreateBuilder<Lead>(3);
            if (LeadA is not null) leads.Add(new('a', LeadA));
            if (LeadB is not null) leads.Add(new('b', LeadB));
            if (LeadC is not null) leads.Add(new('c', LeadC));
            return leads.ToImmutable();
        }
    }

    /// <summary>The lug of the + lead (electrolytic) or cathode (rectifier), or null.</summary>
    [JsonIgnore]
    public string? PlusLug => PlusLead switch { 'a' => LeadA, 'b' => LeadB, 'c' => LeadC, _ => null };

    /// <summary>The lug opposite the + lead, or null.</summary>
    [JsonIgnore]
    public string? MinusLug => PlusLead switch { 'a' => LeadB, 'b' => LeadA, _ => null };
}
