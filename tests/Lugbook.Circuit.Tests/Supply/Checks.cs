using System.Globalization;

namespace Lugbook.Circuit.Tests.Supply;

/// <summary>Rows of data/reference/power-supply-checks.csv and data/valves/rectifier-operation.csv.</summary>
internal static class Checks
{
    public static IEnumerable<Dictionary<string, string>> Of(string check) =>
        Read(Path.Combine("reference", "power-supply-checks.csv")).Where(r => r["check"] == check);

    public static IEnumerable<Dictionary<string, string>> Operation() => Read(Path.Combine("valves", "rectifier-operation.csv"));
    public static IEnumerable<Dictionary<string, string>> Drops() => Read(Path.Combine("valves", "rectifier-points.csv"));

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static IEnumerable<Dictionary<string, string>> Read(string file)
    {
        string[]? names = null;
        foreach (var line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", file)))
        {
            if (line.StartsWith('#') || line.Length == 0) continue;
            var fields = Fields(line);
            if (names is null) names = fields;
            else yield return names.Zip(fields).ToDictionary(p => p.First, p => p.Second);
        }
    }

    private static string[] Fields(string line)
    {
        var (fields, at, quoted) = (new List<string>(), new System.Text.StringBuilder(), false);
        foreach (var c in line)
        {
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted)
            {
                fields.Add(at.ToString());
                at.Clear();
            }
            else at.Append(c);
        }
        fields.Add(at.ToString());
        return [.. fields];
    }
}
