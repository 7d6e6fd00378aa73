using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>A table of roles written by hand, beside what the program finds.</summary>
internal static class RoleTable
{
    public sealed record Line(string Book, string Position, string Word, string? Also);
    public sealed record Told(Line Line, Role Found, bool Hit);

    public static IEnumerable<Told> Of(string file, Func<string, MapResult> map) =>
        File.ReadLines(file).Skip(1).Select(l => l.Split(',')).Select(c => new Line(c[0], c[1], c[2], c[3].Length == 0 ? null : c[3])).GroupBy(l => l.Book).SelectMany(b => Tell(b, map(b.Key)));

    public static string Misses(IEnumerable<Told> told) => string.Join(", ", told.Where(t => !t.Hit).Select(t => $"{t.Line.Position} {t.Line.Word}: {ChooseStage.WordsOf(t.Found)}"));

    private static IEnumerable<Told> Tell(IEnumerable<Line> book, MapResult map)
    {
        var result = ChooseStage.Run(map, Shop.Policy);
        foreach (var line in book)
            if (result.For(line.Position) is { } choice)
                yield return new(line, choice.Role.Role, Roles(line.Word).Contains(choice.Role.Role) || line.Also is not null && Roles(line.Also).Contains(choice.Role.Role));
    }

    private static Role[] Roles(string word) => word switch
    {
        "agc-filter" => [Role.ControlVoltageFilter], "voltage-divider" or "bleeder" => [Role.Divider], "mixing" => [Role.SignalSeries], "heater" => [Role.HeaterString],
        "line-series" => [Role.LineSeries], "tuned" => [Role.Tuned], "rf-bypass" => [Role.RfBypass], "neutralising" or "other" => [Role.Unknown],
        _ => [ChooseStage.RoleOf(word) ?? throw new FormatException(word)],
    };
}
