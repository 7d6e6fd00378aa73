using System.Collections.Immutable;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry;

/// <summary>A part with something still to be filled in.</summary>
/// <param name="Part">The part as it stands.</param>
/// <param name="Open">What is missing, most needed first; at least one.</param>
public sealed record UnfinishedPart(Part Part, ImmutableArray<OpenField> Open);

/// <summary>What a book still lacks: the list behind "finish later".</summary>
/// <param name="Parts">Parts with open fields: those lacking what matters most first, then by reference (R2 before R10).</param>
/// <param name="Finished">Parts with nothing open.</param>
/// <param name="Total">All parts.</param>
public sealed record Unfinished(ImmutableArray<UnfinishedPart> Parts, int Finished, int Total)
{
    /// <summary>How many parts lack this field.</summary>
    public int Lacking(PartField field) => Parts.Count(p => p.Open.Any(o => o.Field == field));

    /// <summary>What a book still lacks.</summary>
    public static Unfinished Of(Book book)
    {
        var open = book.Parts
            .Select(p => new UnfinishedPart(p, FieldsOf(p)))
            .Where(p => !p.Open.IsEmpty)
            .OrderBy(p => p.Open[0].Field)
            .ThenBy(p => p.Part.Name, ReferenceOrder.Instance)
            .ToImmutableArray();
        return new(open, book.Parts.Count - open.Length, book.Parts.Count);
    }

    /// <summary>What one part still lacks, most needed first.</summary>
    /// <remarks>Common practice, no source: which rating a kind needs before a replacement can be chosen.</remarks>
    public static ImmutableArray<OpenField> FieldsOf(Part part)
    {
        var open = ImmutableArray.CreateBuilder<OpenField>();
        void Lacks(PartField field, string say) => open.Add(new(part.Name, field, say));
        var kind = part.Kind;

        var leads = PartKinds.LeadsOf(kind);
        var missing = leads - part.Leads.Length;
        if (missing > 0)
            Lacks(PartField.Leads, missing == leads ? "leads" : kind == PartKind.Control && part.LeadC is null && missing == 1 ? "wiper"
                : missing == 1 && leads == 2 ? "second lead" : missing == 1 ? "third lead" : "two leads");
        if (PartKinds.UnitOf(kind) is not null && part.Value is null)
            Lacks(PartField.Value, kind == PartKind.Winding ? "DC resistance" : "value");
        if (kind is PartKind.Valve or PartKind.Fuse or PartKind.SeleniumRectifier or PartKind.CrystalDiode or PartKind.SiliconRectifier
            && string.IsNullOrWhiteSpace(part.Marked))
            Lacks(PartField.Type, kind == PartKind.Fuse ? "rated current" : "type");
        if (kind == PartKind.Electrolytic && part.PlusLead is null) Lacks(PartField.PlusLead, "which lead is +");
        if (kind.IsRectifier() && part.PlusLead is null) Lacks(PartField.PlusLead, "which lead is the cathode");
        if (kind.IsFixedCapacitor() && part.RatedVolts is null) Lacks(PartField.RatedVolts, "rated volts");
        if (kind == PartKind.Resistor && part.RatedWatts is null) Lacks(PartField.RatedWatts, "rated watts");
        if (kind == PartKind.Capacitor) Lacks(PartField.Kind, "kind of capacitor");
        if (kind == PartKind.Other) Lacks(PartField.Kind, "kind");
        return open.ToImmutable();
    }
}
