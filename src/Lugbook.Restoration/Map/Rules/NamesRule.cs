using System.Globalization;
using Lugbook.Trade;

namespace Lugbook.Restoration.Map.Rules;

/// <summary>Two parts, lugs or mounts of one name; one part entered twice.</summary>
internal static class NamesRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c) =>
        Twice(c.Book.Parts, "two-parts-one-name", "parts", "Give one of them its own reference, or take out the one that was entered twice.")
        .Concat(Twice(c.Book.Lugs, "two-lugs-one-name", "lugs", "Rename or take out one; until then leads on this name go to the first."))
        .Concat(Twice(c.Book.Mounts, "two-mounts-one-name", "mounts", "Rename one of them."))
        .Concat(EnteredTwice(c));

    private static IEnumerable<Contradiction> Twice<T>(Table<T> rows, string rule, string what, string remedy) where T : Row =>
        from row in rows
        where row.Name.Trim().Length > 0
        group row by row.Name.Trim().ToUpperInvariant() into same
        where same.Count() > 1
        let name = same.First().Name
        select new Contradiction(rule, Weight.Contradiction, name,
            $"{Number(same.Count())} {what} have the name {name}.", remedy);

    /// <summary>Same kind, same marking and value, same two lugs, other reference: likely one part written down twice.</summary>
    private static IEnumerable<Contradiction> EnteredTwice(RuleContext c)
    {
        var loose = c.Book.Parts.Where(p => p.LeadA is not null && p.LeadB is not null && p.Value is not null && p.Group is null);
        foreach (var same in loose.GroupBy(p => (p.Kind, p.Value, WiresRule.Ends(p.LeadA!, p.LeadB!))))
        {
            var names = same.Select(p => p.Name).Distinct(StringComparer.OrdinalIgnoreCase).Order(NaturalOrder.Names).ToArray();
            if (names.Length > 1)
                yield return new("part-entered-twice", Weight.Doubt, names[1],
                    $"{string.Join(" and ", names)} are alike and on the same two lugs, {same.First().LeadA} and {same.First().LeadB}.",
                    "Look whether two parts are there; if there is one, take out a row.");
        }
    }

    private static string Number(int count) => count == 2 ? "Two" : count.ToString(CultureInfo.InvariantCulture);
}
