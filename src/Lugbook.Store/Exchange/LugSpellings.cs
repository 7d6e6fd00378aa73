using System.Collections.Immutable;
using System.Text;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;

namespace Lugbook.Store.Exchange;

/// <summary>Leads and wires that name a lug in another spelling: "V3.6", "V3 pin 6" and "V3–6" for V3-6.</summary>
/// <remarks>Only where exactly one lug can be meant and none has the name as written; every other lead stays, for the map to report.</remarks>
internal static class LugSpellings
{
    public static (ImmutableArray<Part> Parts, ImmutableArray<Wire> Wires, ImmutableArray<DeclaredVoltage> Declared) Settle(
        ImmutableArray<Lug> lugs, ImmutableArray<Part> parts, ImmutableArray<Wire> wires, ImmutableArray<DeclaredVoltage> declared, ImmutableArray<string>.Builder remarks)
    {
        var names = lugs.Select(l => l.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var bySpelling = lugs.GroupBy(l => Plain(l.Name)).Where(g => g.Count() == 1).ToDictionary(g => g.Key, g => g.First().Name);
        var changed = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var settled = (
            parts.Select(p => p with { LeadA = Name(p.LeadA), LeadB = Name(p.LeadB), LeadC = Name(p.LeadC) }).ToImmutableArray(),
            wires.Select(w => w with { From = Name(w.From)!, To = Name(w.To)! }).ToImmutableArray(),
            declared.Select(d => d with { Name = Name(d.Name)! }).ToImmutableArray());
        if (changed.Count > 0)
            remarks.Add($"Lugs written in another spelling were taken for those listed: {string.Join(", ", changed.Take(8).Select(c => $"'{c.Key}' for {c.Value}"))}{(changed.Count > 8 ? $" and {changed.Count - 8} more" : "")}.");
        return settled;

        string? Name(string? written)
        {
            if (written is null || names.Contains(written) || !bySpelling.TryGetValue(Plain(written), out var meant)) return written;
            changed[written] = meant;
            return meant;
        }
    }

    /// <summary>Letters and digits, parted by single hyphens, without the words pin and lug.</summary>
    public static string Plain(string name)
    {
        var text = new StringBuilder();
        foreach (var word in HeaderWords.Normal(name).Split(' ', StringSplitOptions.RemoveEmptyEntries))
            if (word is not ("pin" or "lug" or "tag")) text.Append(text.Length > 0 ? "-" : "").Append(word);
        return text.ToString();
    }
}
