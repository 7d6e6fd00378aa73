using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Judge;

/// <summary>Places in a set, and times at which it was made, for which a policy may say otherwise than for the family.</summary>
internal static partial class PolicyPlace
{
    /// <summary>The words for places, as a policy writes them; the first that fits a part counts.</summary>
    public static ImmutableArray<string> Words { get; } = ["on the line", "at a grid", "at a plate"];

    /// <summary>The place that words mean; null for none.</summary>
    public static string? Read(string words) => words.Trim().ToLowerInvariant() switch
    {
        "on the line" or "line" or "across the line" or "mains" => Words[0],
        "at a grid" or "grid" or "at grids" or "coupling" => Words[1],
        "at a plate" or "plate" or "at plates" => Words[2],
        var said when Era().Match(said) is { Success: true } era => $"made {era.Groups["when"].Value} {era.Groups["year"].Value}",
        _ => null,
    };

    /// <summary>Is this "made before 1946" or "made from 1950", and true of a set of this year? Of a set without a year neither is.</summary>
    public static bool IsTrueOf(string place, int? year) => year is { } made && Era().Match(place) is { Success: true } era
        && int.Parse(era.Groups["year"].ValueSpan, CultureInfo.InvariantCulture) is var limit && (era.Groups["when"].ValueSpan is "before" ? made < limit : made >= limit);

    [GeneratedRegex(@"^(made )?(?<when>before|from) (?<year>(18|19|20)[0-9]{2})$", RegexOptions.ExplicitCapture)]
    private static partial Regex Era();

    /// <summary>Where a part is: a lead on the line and not on common, on a valve's control grid, on its plate. Several may be true; none where lugs are not entered.</summary>
    public static IEnumerable<string> Of(Part part, MapResult map)
    {
        var nodes = part.Leads.Select(l => map.NodeOf(l.Lug)).OfType<Node>().ToArray();
        if (nodes.Any(n => n.Index != map.Common.Node?.Index && map.LineWays.Any(w => w.Node.Index == n.Index))) yield return Words[0];
        if (nodes.Any(n => n.Pins.Any(p => p.Has(ElectrodeKind.ControlGrid)))) yield return Words[1];
        if (nodes.Any(n => n.Pins.Any(p => p.Has(ElectrodeKind.Plate)))) yield return Words[2];
    }
}
