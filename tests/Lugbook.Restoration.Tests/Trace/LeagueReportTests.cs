using System.Globalization;
using System.Text;
using Lugbook.Restoration.Tests.Unseen;
using Lugbook.Restoration.Trace;

namespace Lugbook.Restoration.Tests.Trace;

/// <summary>
/// The league: sets of other valve laws and other spreads, with one fault, one slip or none, each searched from nothing. TRACE_SETS asks for so many a book, TRACE_BOOKS for some books alone; with LUGBOOK_WRITE_DOCS naming a folder each book's page part is written
/// there, beside two baselines that choose their readings by the chart's order and by half-splitting.
/// </summary>
public class LeagueReportTests
{
    private const int Seed = 20_000;

    private static int? Asked => int.TryParse(Environment.GetEnvironmentVariable("TRACE_SETS"), CultureInfo.InvariantCulture, out var n) ? n : null;

    public static TheoryData<string> Books => Asked is null ? ["amp"] : [.. (Environment.GetEnvironmentVariable("TRACE_BOOKS") ?? "radio amp tv hifi phono").Split(' ')];

    [Theory]
    [MemberData(nameof(Books))]
    public void What_is_named_is_right_and_healthy_sets_are_left_alone(string book)
    {
        var league = new League(UnseenBooks.Names.Contains(book) ? UnseenBooks.SolvedOf(book) : Solved.Demo(book));
        var sets = Asked is not { } n ? 12 : book == "tv" ? Math.Max(10, n / 10) : n;
        var played = league.Play(sets, Seed);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder)
            File.WriteAllText(Path.Combine(folder, $"trace-{book}.md"), Page(book, [.. new[] { Way.Proposed, Way.ChartOrder, Way.HalfSplit }.Select(w => (w, w == Way.Proposed ? played : league.Play(sets, Seed, w)))]));
        var claims = played.Where(p => p.Verdict is TraceVerdict.Found or TraceVerdict.Healthy).ToArray();
        var well = played.Where(p => p.WasHealthy).ToArray();
        Assert.True(claims.Length > 0, "nothing was ever named");
        Assert.True(claims.Count(p => p.GroupFirst) >= 0.8 * claims.Length - 1, string.Join('\n', claims.Where(p => !p.GroupFirst).Select(p => $"{p.Truth}: {p.Said}")));
        Assert.True(well.Count(p => p.Verdict == TraceVerdict.Found) <= Math.Max(1, 0.05 * well.Length), string.Join('\n', well.Select(p => p.Said)));
    }

    private static string Page(string book, (Way Way, Played[] Played)[] ways)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"### {book}\n\n| readings chosen by | sets | ill | group first | part in first three | median readings | named, right | healthy, called ill | mean claim |\n|---|---|---|---|---|---|---|---|---|\n");
        foreach (var (way, played) in ways)
        {
            var ill = played.Where(p => !p.WasHealthy).ToArray();
            var well = played.Where(p => p.WasHealthy).ToArray();
            var claims = played.Where(p => p.Verdict is TraceVerdict.Found or TraceVerdict.Healthy).ToArray();
            text.Append(CultureInfo.InvariantCulture, $"| {way switch { Way.Proposed => "most information for effort", Way.ChartOrder => "the chart's order", _ => "half-split by hand" }} | {played.Length} | {ill.Length} | {Share(ill.Count(p => p.GroupFirst), ill.Length)} | {Share(ill.Count(p => p.InFirstThree), ill.Length)} | {played.Select(p => p.Readings).Order().ElementAtOrDefault(played.Length / 2)} | {claims.Count(p => p.GroupFirst)} of {claims.Length} | {well.Count(p => p.Verdict == TraceVerdict.Found)} of {well.Length} | {Share(claims.Sum(p => p.Claim), claims.Length)} |\n");
        }
        var proposed = ways[0].Played;
        text.Append("\n| what was wrong | sets | group first | named | mean readings |\n|---|---|---|---|---|\n");
        foreach (var sort in proposed.GroupBy(p => p.Sort).OrderBy(g => g.Key, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"| {sort.Key} | {sort.Count()} | {Share(sort.Count(p => p.GroupFirst), sort.Count())} | {sort.Count(p => p.Verdict == TraceVerdict.Found)} | {sort.Average(p => p.Readings):0.0} |\n");
        text.Append(CultureInfo.InvariantCulture, $"\nA search took {proposed.Average(p => p.Milliseconds) / Math.Max(1, proposed.Average(p => p.Readings + 1)):0} ms a reading while both cores were busy with searches.\n\n");
        return text.ToString();
    }

    private static string Share(double part, double of) => of == 0 ? "–" : (100 * part / of).ToString("0", CultureInfo.InvariantCulture) + " %";
}
