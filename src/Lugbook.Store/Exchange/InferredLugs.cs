using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Store.Exchange;

/// <summary>When no lugs were given: those that the leads, wires and declared voltages name, on the mounts that their names suggest.</summary>
internal static class InferredLugs
{
    /// <summary>Lugs and mounts in the order of first mention. Nothing is known of where they lie.</summary>
    public static (ImmutableArray<Mount> Mounts, ImmutableArray<Lug> Lugs) From(IEnumerable<Part> parts, IEnumerable<Wire> wires, IEnumerable<Row> declared)
    {
        var names = parts.SelectMany(p => p.Leads.Select(l => l.Lug)).Concat(wires.SelectMany(w => new[] { w.From, w.To })).Concat(declared.Select(d => d.Name));
        var mounts = ImmutableArray.CreateBuilder<Mount>();
        var lugs = ImmutableArray.CreateBuilder<Lug>();
        var (seenMounts, seenLugs) = (new HashSet<string>(StringComparer.OrdinalIgnoreCase), new HashSet<string>(StringComparer.Ordinal));
        foreach (var name in names)
        {
            // V3.6 and V3-6 are one lug; the first spelling stands, and the others are settled by it.
            if (!seenLugs.Add(LugSpellings.Plain(name))) continue;
            var (mount, no) = LugsText.Split(name);
            if (seenMounts.Add(mount)) mounts.Add(new() { Name = mount, KindAsWritten = KindOf(mount), Note = LugsText.InferredNote });
            // The usual spelling, as long as the leads still find it.
            var usual = no is { } number ? string.Create(CultureInfo.InvariantCulture, $"{mount}-{number}") : name;
            lugs.Add(new() { Name = LugSpellings.Plain(usual) == LugSpellings.Plain(name) ? usual : name, Mount = mount, No = no, Note = LugsText.InferredNote });
        }
        return (mounts.ToImmutable(), lugs.ToImmutable());
    }

    /// <summary>Only a lug that is called chassis is taken for the chassis; a socket's kind cannot be told from a number.</summary>
    private static string KindOf(string mount) => mount.ToUpperInvariant() is "CHASSIS" or "CH" ? "chassis" : "";
}
