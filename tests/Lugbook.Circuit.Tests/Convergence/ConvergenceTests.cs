using System.Globalization;
using System.Text;
using CsCheck;

namespace Lugbook.Circuit.Tests.Convergence;

/// <summary>Source: our own promise in docs/circuit.md: no crash, no hang, no number that is none, 1 nA at most, or a reason with node and element.</summary>
public class ConvergenceTests
{
    private const int Usual = 300;

    // CsCheck_Iter asks for more networks, LUGBOOK_WRITE_DOCS for the page: docs/circuit.md.
    private static long Iterations => long.TryParse(Environment.GetEnvironmentVariable("CsCheck_Iter"), NumberStyles.None, CultureInfo.InvariantCulture, out var given) ? given : Usual;

    [Fact]
    public void Random_networks_are_answered_or_the_reason_is_named()
    {
        var analyses = new Analyses();
        RandomNetworks.Both.Sample(network => analyses.Run(network), iter: Iterations, print: Printed);
        var page = Page(analyses);
        TestContext.Current.TestOutputHelper?.WriteLine(page);
        if (Environment.GetEnvironmentVariable("LUGBOOK_WRITE_DOCS") is { Length: > 0 } folder) File.WriteAllText(Path.Combine(folder, "convergence.md"), page);
    }

    private static string Page(Analyses analyses)
    {
        var page = new StringBuilder();
        void Line(FormattableString text) => page.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
        var byAnalysis = analyses.Outcomes.GroupBy(o => o.Analysis).OrderBy(g => g.Key, StringComparer.Ordinal).ToArray();
        Line($"# Convergence: {byAnalysis.Max(g => g.Count())} random networks");
        Line($"");
        Line($"Half are wired at random (2 to 24 nodes, up to 41 elements of all kinds: open grids, shorted loops, floating parts, valves upside down), half are sets with up to three parts open, shorted or in the");
        Line($"wrong place. Valves have the fitted laws of the handbook types. Held: no crash, every number finite, at most 1 nA unaccounted for at any node (summed element by element, apart from the solver), and");
        Line($"where there is no answer a reason that names node and element. Written by the command in docs/circuit.md.");
        Line($"");
        Line($"| analysis | asked | answered | largest current unaccounted for | longest, s | no answer, because |");
        Line($"|---|---|---|---|---|---|");
        foreach (var g in byAnalysis)
        {
            var reasons = g.Where(o => o.Reason is not null).GroupBy(o => o.Reason!).OrderByDescending(r => r.Count()).ThenBy(r => r.Key, StringComparer.Ordinal).Select(r => $"{r.Count()}: {r.Key}");
            var amperes = g.Key == "operating point" ? string.Create(CultureInfo.InvariantCulture, $"{g.Max(o => o.Amperes) * 1e9:0.0} nA") : "–";
            Line($"| {g.Key} | {g.Count()} | {g.Count(o => o.Reason is null)} | {amperes} | {g.Max(o => o.Seconds):0.0} | {string.Join("; ", reasons)} |");
        }
        return page.ToString();
    }

    private static string Printed(Network network) => $"{network.NodeCount} nodes\n{string.Join('\n', network.Elements)}";
}
