using System.Collections.Immutable;
using Lugbook.Restoration.Layout.Geometry;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Layout.Bodies;

/// <summary>A lead of a part from its body to its lug.</summary>
/// <param name="Letter">'a', 'b' or 'c'.</param>
/// <param name="Lug">The lug it ends on; null for a lead that hangs free.</param>
/// <param name="Course">From the body to the lug.</param>
/// <param name="Paint">Colour of its insulation; null for bare wire.</param>
public sealed record PlacedLead(char Letter, PlacedLug? Lug, Outline Course, string? Paint = null)
{
    private List<Pt>? _points;
    /// <summary>Its course in short steps.</summary>
    public List<Pt> Points => _points ??= Course.Points(6);
}

/// <summary>Where a part is.</summary>
public enum Home
{
    /// <summary>On its own leads between lugs.</summary>
    Loose,
    /// <summary>In or on its mount: a can's section, a control, a valve in its socket.</summary>
    Mount,
    /// <summary>In a body that it shares with others.</summary>
    Shared,
    /// <summary>On no lug yet: laid out beside the chassis.</summary>
    Tray,
}

/// <summary>A part with a place.</summary>
/// <param name="Part">The part.</param>
/// <param name="Home">Where it is.</param>
/// <param name="Form">What it looks like.</param>
/// <param name="Slab">What its body covers; axis from lead a to lead b.</param>
/// <param name="Leads">Its leads.</param>
public sealed record PlacedBody(Part Part, Home Home, BodyForm Form, Slab Slab, ImmutableArray<PlacedLead> Leads);
