using System.Collections.Immutable;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Readings;

namespace Lugbook.Restoration.Judge;

/// <summary>Puts what is still to be measured into an order of few probe moves and meter changes.</summary>
/// <remarks>First what is read in place, then what needs a lead lifted, each by the meter's function; within these, from the nearest lug to the next (nearest neighbour, then pairs of legs exchanged while that shortens the way). Parts that protect the set come first within their group of stakes.</remarks>
internal static class MeasuringRound
{
    public static ImmutableArray<RoundStep> Of(Book book, IEnumerable<PartVerdict> parts)
    {
        var open = parts.Where(p => p.Next is not null).ToArray();
        var steps = ImmutableArray.CreateBuilder<RoundStep>();
        ReadingKind? function = null;
        foreach (var group in open.GroupBy(p => (Grave: p.Stake.Score >= 2, p.Next!.InPlace, p.Next.Kind)).OrderBy(g => g.Key.Grave ? 0 : 1).ThenBy(g => g.Key.InPlace ? 0 : 1).ThenBy(g => g.Key.Kind))
        {
            foreach (var part in Way(book, [.. group]))
            {
                var entered = book.Parts.Named(part.Position);
                steps.Add(new(steps.Count + 1, part.Position, part.Next!, entered?.LeadA, entered?.LeadB, function is not null && function != part.Next!.Kind));
                function = part.Next!.Kind;
            }
        }
        return steps.ToImmutable();
    }

    private static PartVerdict[] Way(Book book, PartVerdict[] parts)
    {
        var places = parts.Select(p => Place(book, p.Position)).ToArray();
        var left = Enumerable.Range(0, parts.Length).OrderBy(i => parts[i].Position, NaturalOrder.Names).ToList();
        var way = new List<int>();
        (double X, double Y)? here = null;
        while (left.Count > 0)
        {
            var next = here is { } h ? left.MinBy(i => places[i] is { } p ? Distance(h, p) : double.MaxValue) : left[0];
            left.Remove(next);
            way.Add(next);
            here = places[next] ?? here;
        }
        for (var improved = true; improved;)
        {
            improved = false;
            for (var i = 0; i + 2 < way.Count; i++)
                for (var j = i + 2; j < way.Count - 1; j++)
                {
                    var before = Leg(way[i], way[i + 1]) + Leg(way[j], way[j + 1]);
                    var after = Leg(way[i], way[j]) + Leg(way[i + 1], way[j + 1]);
                    if (!(after < before - 1e-9)) continue;
                    way.Reverse(i + 1, j - i);
                    improved = true;
                }
        }
        return [.. way.Select(i => parts[i])];

        double Leg(int a, int b) => places[a] is { } p && places[b] is { } q ? Distance(p, q) : 0;
    }

    private static double Distance((double X, double Y) a, (double X, double Y) b) => Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y));

    private static (double X, double Y)? Place(Book book, string position)
    {
        var part = book.Parts.Named(position);
        var lugs = new[] { part?.LeadA, part?.LeadB }.Select(book.Lugs.Named).Where(l => l is { X: not null, Y: not null }).ToArray();
        return lugs.Length == 0 ? null : (lugs.Average(l => l!.X!.Value), lugs.Average(l => l!.Y!.Value));
    }
}
