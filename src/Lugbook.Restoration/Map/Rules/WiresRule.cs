namespace Lugbook.Restoration.Map.Rules;

/// <summary>Wires that cannot be: to a lug that is not there, from a lug to itself, the same one twice, to nothing.</summary>
internal static class WiresRule
{
    public static IEnumerable<Contradiction> Find(RuleContext c)
    {
        foreach (var wire in c.Book.Wires)
        {
            foreach (var end in new[] { wire.From, wire.To })
                if (string.IsNullOrWhiteSpace(end))
                    yield return new("wire-with-one-end", Weight.Contradiction, wire.Name, $"Wire {wire.Name} has one end only.", "Enter the lug of its other end.");
                else if (c.Book.Lugs.Count > 0 && c.Book.Lugs.Named(end.Trim()) is null)
                    yield return new("wire-to-unknown-lug", Weight.Contradiction, wire.Name, $"Wire {wire.Name} goes to {end}, but there is no lug {end}.", "Correct the lug's name, or add the lug to its mount.");
            if (RuleContext.Same(wire.From, wire.To))
                yield return new("wire-to-itself", Weight.Contradiction, wire.Name, $"Wire {wire.Name} begins and ends on {wire.From}.", "Enter where it really goes.");
        }
        foreach (var same in c.Book.Wires.Where(w => !RuleContext.Same(w.From, w.To)).GroupBy(w => Ends(w.From, w.To)).Where(g => g.Count() > 1))
        {
            var names = same.Select(w => w.Name).Order(NaturalOrder.Names).ToArray();
            yield return new("wire-entered-twice", Weight.Remark, names[1], $"Wires {string.Join(" and ", names)} join the same two lugs, {same.First().From} and {same.First().To}.", "Look whether both are there.");
        }
        foreach (var found in ToNothing(c)) yield return found;
    }

    /// <summary>Two lugs as one key, whatever their order and case.</summary>
    public static (string, string) Ends(string from, string to)
    {
        var (a, b) = (from.Trim().ToUpperInvariant(), to.Trim().ToUpperInvariant());
        return string.CompareOrdinal(a, b) <= 0 ? (a, b) : (b, a);
    }

    /// <summary>A run of wire that reaches neither a lead nor an electrode.</summary>
    private static IEnumerable<Contradiction> ToNothing(RuleContext c)
    {
        for (var node = 0; node < c.Chart.Count; node++)
        {
            if (c.Chart.LugsOf[node].Length < 2 || c.Chart.LeadsOf[node].Length > 0 || c.Ground.Contains(node)) continue;
            if (c.Chart.PinsOf[node].Any(p => FloatingRule.IsInUse(p)) || c.LeavesTheBook(node)) continue;
            yield return new("wire-to-nothing", Weight.Doubt, c.Chart.BestLug(node),
                $"The wire between {string.Join(" and ", c.Chart.LugsOf[node].Take(3))} reaches no part and no electrode.", "Look where it goes on, or enter the part that is missing there.");
        }
    }
}
