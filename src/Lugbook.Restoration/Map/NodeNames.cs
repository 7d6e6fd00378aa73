using System.Globalization;

namespace Lugbook.Restoration.Map;

/// <summary>Names of nodes: a role where there is one, else the best-known lug.</summary>
internal static class NodeNames
{
    public static string[] Of(Chart chart, int? chassis, int? common, int? earth)
    {
        var names = Enumerable.Range(0, chart.Count).Select(chart.BestLug).ToArray();
        var rails = SupplyRails.Find(chart, common);
        for (var i = 0; i < rails.Count; i++) names[rails[i]] = $"B+{(i + 1).ToString(CultureInfo.InvariantCulture)}";
        if (earth is { } e) names[e] = "earth";
        if (common is { } c) names[c] = "B-";
        if (chassis is { } m) names[m] = "chassis";
        return names;
    }
}
