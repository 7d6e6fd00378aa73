using System.Collections.Concurrent;
using System.Globalization;
using Lugbook.Circuit;
using Lugbook.Restoration.Netlist;
using Lugbook.Restoration.Solve;
using Lugbook.Restoration.Wake;

namespace Lugbook.Restoration.Tests.Wake;

/// <summary>Stop limits against faults they were not set against, and against healthy sets of another draw. With LUGBOOK_WRITE_DOCS naming a folder each book's page part is written there; WAKE_SAMPLES asks for more sets.</summary>
public class WakeAccuracyTests
{
    private const int Seed = 77;
    private static readonly WakeEquipment Usual = new() { LampWatts = [40, 60, 100, 150] };

    private static int? Asked => int.TryParse(Environment.GetEnvironmentVariable("WAKE_SAMPLES"), CultureInfo.InvariantCulture, out var n) ? n : null;

    /// <summary>Minutes for the larger books: only when asked for.</summary>
    public static TheoryData<string> Books => Asked is null ? ["radio"] : ["radio", "amp", "tv"];

    [Theory]
    [MemberData(nameof(Books))]
    public void Other_faults_are_stopped_and_other_healthy_sets_are_not(string book)
    {
        var sets = Asked is not { } n ? 6 : book == "tv" ? n / 25 : n;
        var stop = TestContext.Current.CancellationToken;
        var solved = Solved.Demo(book);
        var wake = WakeStage.Run(solved, Usual, stop: stop);
        var set = new WakeSet(solved, null);
        var near = wake.Steps.ToDictionary(s => s.Number, s => set.Settled(set.Hooked(set.Network, Hookup(s)), Hookup(s)));
        int? StoppedAt(Network changed, out bool silent)
        {
            silent = true;
            foreach (var step in wake.Steps)
            {
                if (set.Settled(set.Hooked(changed, Hookup(step)), Hookup(step), near[step.Number]) is not { } state) continue;
                silent = false;
                if (WakeStage.IsCaught(step.Expected, set.Shown(state.Cycle))) return step.Number;
            }
            return null;
        }
        var rows = new ConcurrentBag<(string Kind, string Words, int? Step, bool Silent)>();
        var faults = OtherFaults.Of(set).ToArray();
        var tried = faults.Where((_, k) => Asked is not null || k % 4 == 0);
        Parallel.ForEach(tried, new() { CancellationToken = stop }, f => rows.Add((f.Kind, f.Words, StoppedAt(f.In(set.Network), out var silent), silent)));
        var stops = new ConcurrentBag<int?>();
        Parallel.ForEach(Healthy(set, sets), new() { CancellationToken = stop }, n => stops.Add(StoppedAt(n, out _)));
        var falseStops = stops.Count(s => s is not null);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, $"wake-{book}.md"), Page(book, wake, [.. rows], [.. stops]));
        Assert.True(rows.Count(r => r.Step is not null) >= 0.6 * rows.Count, $"{rows.Count(r => r.Step is not null)} of {rows.Count} faults stopped");
        Assert.True(falseStops <= Math.Max(1, 0.01 * sets), $"{falseStops} of {sets} healthy sets stopped");
    }

    private static Hookup Hookup(WakeStep s) => new(s.LampWatts, s.LineShare, s.Out);

    /// <summary>Every part evenly within its tolerance, each by itself: another draw than that of the limits.</summary>
    private static Network[] Healthy(WakeSet set, int sets)
    {
        var random = new Random(Seed);
        Spread[] spreads = [.. set.Solved.Netlist.Spreads.Where(s => s.Cause is SpreadCause.Tolerance or SpreadCause.Valve or SpreadCause.Declared)];
        return [.. Enumerable.Range(0, sets).Select(_ =>
            set.Network.Changed([.. spreads.Select(s => (s.Element, s.Parameter, HealthySamples.At(s, random.NextDouble())))]).With(set.Line with { VoltsRms = set.LineVolts * (0.95 + 0.1 * random.NextDouble()) }))];
    }

    private static string Page(string book, WakeResult wake, (string Kind, string Words, int? Step, bool Silent)[] rows, int?[] stops)
    {
        var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        text.WriteLine($"## {book}\n\nSteps: {string.Join("; ", wake.Steps.Select(s => $"{s.Number} {s.Title}{(s.LampWatts is { } w ? string.Create(CultureInfo.InvariantCulture, $" ({w:0} W)") : "")}"))}.\n");
        text.WriteLine($"Healthy sets: {stops.Length}, of which stopped at some step: {stops.Count(s => s is not null)}{(stops.Any(s => s is not null) ? $" ({string.Join(", ", stops.Where(s => s is not null).GroupBy(s => s).OrderBy(g => g.Key).Select(g => $"step {g.Key}: {g.Count()}"))})" : "")}.\n");
        text.WriteLine($"Faults: {rows.Length}, stopped: {rows.Count(r => r.Step is not null)}, of which before the full line: {rows.Count(r => r.Step < wake.Steps.Length)}.\n");
        text.WriteLine("| fault | made | stopped at step | never stopped |\n|---|---|---|---|");
        foreach (var kind in rows.GroupBy(r => r.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
            text.WriteLine($"| {kind.Key} | {kind.Count()} | {string.Join(", ", kind.Where(r => r.Step is not null).GroupBy(r => r.Step).OrderBy(g => g.Key).Select(g => $"{g.Key}: {g.Count()}"))} | {string.Join(", ", kind.Where(r => r.Step is null).OrderBy(r => r.Words, StringComparer.Ordinal).Select(r => r.Words + (r.Silent ? " (not computed)" : "")))} |");
        return text.ToString();
    }
}
