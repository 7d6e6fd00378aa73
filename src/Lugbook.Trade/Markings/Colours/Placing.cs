using System.Collections.Immutable;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>Puts colours whose places were named into the order of the code.</summary>
internal static class Placing
{
    private static readonly ImmutableArray<string> BodyEndDot = ["body", "end", "dot", "other end"];
    private static readonly ImmutableArray<string> Threads = ["body", "heavy thread", "fine thread"];
    private static readonly ImmutableArray<string> Six = ["top left", "top centre", "top right", "bottom left", "bottom centre", "bottom right"];

    /// <summary>The colours in order, the codes that have such places, or the complaint.</summary>
    public static (ImmutableArray<Sighting> Seen, ImmutableArray<string> Codes, Complaint? Complaint) Arrange(Sightings sightings)
    {
        var places = sightings.Seen.Select(s => s.Place).ToList();
        var (order, codes) =
            places.Any(p => Threads[1..].Contains(p)) ? (Threads, (ImmutableArray<string>)["resistor-flexible"])
            : places.Any(Six.Contains) ? (Six, [.. CodeLayouts.All.Where(l => l.Forms.Any(f => f.Slots.Select(s => s.Place).SequenceEqual(Six))).Select(l => l.Id)])
            : (BodyEndDot, ["resistor-body-end-dot"]);

        foreach (var one in sightings.Seen)
        {
            if (one.Place.Length == 0)
                return Fails(one.At, "this colour has no place beside it", $"Name a place for each colour ({string.Join(", ", order)}), or write the colours alone in that order.");
            if (!order.Contains(one.Place))
                return Fails(one.At, $"{one.Place} does not go with the other places", $"Use {string.Join(", ", order)}.");
            if (places.Count(p => p == one.Place) > 1 && places.IndexOf(one.Place) != sightings.Seen.IndexOf(one))
                return Fails(one.At, $"two colours for {one.Place}", "Give each place one colour.");
        }
        var length = order == BodyEndDot && !places.Contains("other end") ? 3 : order.Length;
        var seen = order.Take(length)
            .Select(p => places.Contains(p) ? sightings.Seen[places.IndexOf(p)] : new(Colour.None, false, sightings.Text.Length, p))
            .ToImmutableArray();
        return seen[0].Colour == Colour.None && order != Six
            ? Fails(0, "the colour of the body is missing", "Write it too: body red, end green, dot orange.")
            : (seen, codes, null);

        (ImmutableArray<Sighting>, ImmutableArray<string>, Complaint?) Fails(int at, string problem, string remedy) =>
            ([], [], new("the marking", sightings.Text, at, problem, remedy));
    }
}
