using Lugbook.Trade.Parts;

namespace Lugbook.Store.Exchange;

/// <summary>The lugs of a part's leads, and which lead is +.</summary>
internal readonly record struct Leads(string? A, string? B, string? C, char? Plus)
{
    public static Leads None => default;
}

/// <summary>Reads the columns lead_a, lead_b, lead_c, plus_lead, and "leads", where strangers write them all in one cell.</summary>
internal static class LeadsText
{
    public static Leads Read(RowCells row, PartKind kind)
    {
        var leads = new Leads(row.LugName("lead_a"), row.LugName("lead_b"), row.LugName("lead_c"), null);
        if (!row.Table.Context.Exact && leads == Leads.None && row.Words("leads") is { } all) leads = Together(row, all);
        return leads with { Plus = PlusLead(row, leads, kind) };
    }

    private static Leads Together(RowCells row, string all)
    {
        var names = all.Replace(" to ", " ", StringComparison.OrdinalIgnoreCase).Replace("→", " ", StringComparison.Ordinal).Replace("->", " ", StringComparison.Ordinal)
            .Split([' ', ',', ';', '\n', '/', '&'], StringSplitOptions.RemoveEmptyEntries);
        if (names.Length <= 3) return new(names.ElementAtOrDefault(0), names.ElementAtOrDefault(1), names.ElementAtOrDefault(2), null);
        row.Complain("leads", 0, "this names more than three lugs.", "Write one lug for each lead: V3-6 V4-5.");
        return Leads.None;
    }

    private static char? PlusLead(RowCells row, Leads leads, PartKind kind)
    {
        if (row.Words("plus_lead") is not { } text) return null;
        if (row.Table.Context.Exact && text.Length == 1) return text[0];
        if (RowCells.IsNothing(text) && text != "?") return null;
        if (text == "?") return null;
        var word = HeaderWords.Normal(text);
        foreach (var prefix in new[] { "lead ", "end ", "+ on ", "+ at ", "+ ", "lead_" })
            if (word.StartsWith(prefix, StringComparison.Ordinal)) word = word[prefix.Length..];
        switch (word)
        {
            case "a" or "1" or "first": return 'a';
            case "b" or "2" or "second": return 'b';
            case "c" or "3" when kind == PartKind.Other: return 'c';
        }
        if (Same(text, leads.A)) return 'a';
        if (Same(text, leads.B)) return 'b';
        row.Complain("plus_lead", 0, "this is neither a nor b, nor the lug of one of the leads.", "Write a when + is on lead_a, b when it is on lead_b.");
        return null;
    }

    private static bool Same(string text, string? lug) => lug is not null && text.TrimStart('+', ' ').Equals(lug, StringComparison.OrdinalIgnoreCase);
}
