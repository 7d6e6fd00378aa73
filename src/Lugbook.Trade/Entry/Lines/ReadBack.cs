using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Says what was understood, in words that quick entry reads the same way again.</summary>
internal static class ReadBack
{
    /// <summary>A part in one sentence: "C7: 0.02 µF, 400 V, paper; leads V3-6 and V4-5".</summary>
    public static string Of(Part part)
    {
        var facts = new List<string>();
        var kind = part.Kind;
        if (kind is PartKind.Valve or PartKind.Fuse or PartKind.Lamp or PartKind.Switch || kind.IsRectifier() || (kind == PartKind.Winding && part.Marked is not null))
        {
            if (part.Marked is not null) facts.Add(part.Marked);
        }
        // A lamp's hot resistance follows from what is marked on it.
        if (part.Value is { } value && kind != PartKind.Lamp) facts.Add(ValueText.Of(value, part.Unit) + (part.Tolerance is { } t ? " " + ValueText.Of(t) : ""));
        else if (part.Tolerance is { } alone) facts.Add(ValueText.Of(alone));
        if (part.RatedVolts is { } volts && !(kind == PartKind.Lamp && part.Marked is not null && part.Value is not null)) facts.Add($"{ValueText.Number(volts)} V");
        if (part.RatedWatts is { } watts && kind != PartKind.Lamp) facts.Add($"{ValueText.Number(watts)} W");
        facts.Add(part.KindAsWritten);
        if (part.Code is { } code && LooksLikeColours(code)) facts.Add(code);
        var leads = Leads(part);
        var note = part.Note is { Length: > 0 } n ? $"; note \"{n.Replace('"', '\'')}\"" : "";
        return $"{part.Name}: {string.Join(", ", facts)}{(leads.Length > 0 ? "; " + leads : "")}{note}";
    }

    private static bool LooksLikeColours(string code) => code.Split(' ').Count(w => Colours.Name(w) is not null) >= 3;

    private static string Leads(Part part)
    {
        if (part.Kind == PartKind.Control && part is { LeadA: { } one, LeadB: { } other, LeadC: { } wiper }) return $"ends {one} and {other}, wiper {wiper}";
        var (plus, minus) = part.Kind.IsRectifier() ? ("cathode ", "anode ") : ("+ ", "minus ");
        if (part is { LeadA: { } a, LeadB: { } b, LeadC: null })
            return part.PlusLead switch { 'a' => $"{plus}{a}, {minus}{b}", 'b' => $"{minus}{a}, {plus}{b}", _ => $"leads {a} and {b}" };
        return string.Join(", ", part.Leads.Select(l =>
            l.Letter == part.PlusLead ? plus + l.Lug : part.PlusLead is 'a' or 'b' && l.Letter is 'a' or 'b' ? minus + l.Lug
            : l.Letter == 'c' && part.Kind == PartKind.Control ? $"wiper {l.Lug}" : $"lead {l.Letter} {l.Lug}"));
    }

    /// <summary>A wire in one sentence: "W12: bond A-3 to CH".</summary>
    public static string Of(Wire wire)
    {
        var kind = wire.KindAsWritten ?? "wire";
        var colour = wire.Colour is { } c ? $", {c}" : "";
        var note = wire.Note is { Length: > 0 } n ? $"; note \"{n.Replace('"', '\'')}\"" : "";
        return $"{wire.Name}: {kind} {wire.From} to {wire.To}{colour}{note}";
    }
}
