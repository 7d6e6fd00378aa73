using CsCheck;
namespace Lugbook.Circuit.Tests.Convergence;
public class Triage
{
    [Fact]
    public void Go()
    {
        var n = long.Parse(Environment.GetEnvironmentVariable("TRIAGE") ?? "0", System.Globalization.CultureInfo.InvariantCulture);
        if (n == 0) return;
        var analyses = new Analyses();
        var found = new Dictionary<string, (int Count, string Text, int Size)>();
        var until = DateTime.UtcNow.AddSeconds(double.Parse(Environment.GetEnvironmentVariable("TRIAGE_SECONDS") ?? "100", System.Globalization.CultureInfo.InvariantCulture));
        RandomNetworks.Both.Sample(net =>
        {
            if (DateTime.UtcNow > until) return;
            foreach (var only in (Environment.GetEnvironmentVariable("ONLY") is { } o ? o.Split(',') : Analyses.Names))
            try { analyses.Run(net, only); if (only == "operating point" && !net.Elements.Any(e => e is Elements.CurrentDrain)) try { OperatingPoint.Of(net); } catch (UnsolvableException u) when (u.Message.Contains("does not settle")) { throw new InvalidOperationException(u.Message); } }
            catch (Exception e)
            {
                var m = e.Message;
                var key = System.Text.RegularExpressions.Regex.Replace(m.Split('\n')[0], "[0-9.]+(E-?[0-9]+)?|'[^']*'", "#");
                if (key.Length > 160) key = key[..160];
                lock (found)
                {
                    var (c, t, size) = found.GetValueOrDefault(key, (0, "", int.MaxValue));
                    if (net.Elements.Length < size) (t, size) = (m + "\n" + net.NodeCount + " nodes\n" + string.Join('\n', net.Elements), net.Elements.Length);
                    found[key] = (c + 1, t, size);
                }
            }
        }, iter: n, threads: 1);
        using var w = new StreamWriter("/tmp/triage.txt");
        foreach (var c in analyses.Counts) w.WriteLine(FormattableString.Invariant($"{c.Key}: {c.Value.Answered} of {c.Value.Asked}, {c.Value.Worst:0.0e+0} A, longest {c.Value.Longest:0.00} s, all {c.Value.All:0.00} s {string.Join("; ", c.Value.Reasons.Select(r => $"{r.Key} {r.Value}"))}"));
        foreach (var f in found.OrderByDescending(f => f.Value.Count)) w.WriteLine($"### {f.Value.Count} × {f.Key}");
        foreach (var f in found.OrderByDescending(f => f.Value.Count)) w.WriteLine($"\n=== {f.Value.Count} × {f.Key}\n{f.Value.Text}");
    }
}
