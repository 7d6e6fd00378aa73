using Lugbook.Restoration.Prove;
using Lugbook.Restoration.Sheet;
using Lugbook.Restoration.Slips;

namespace Lugbook.Output;

/// <summary>The cold proof in words.</summary>
internal static class ProveText
{
    public static string Screen(string title, ProveResult proof, CheckOutcome outcome, SheetResult? chart)
    {
        var text = Begin(title, proof);
        if (proof.Reason is { } reason) return $"{text}  No proof can be worked out: {reason}";
        text.WriteLine($"First: dangerous shorts\n  {proof.WhyShorts}");
        foreach (var r in proof.Readings.Take(proof.ShortReadings)) Short(text, proof, r);
        var untold = proof.Shorts.Where(s => !s.IsTold).ToArray();
        if (untold.Length > 0) text.WriteLine("  Cannot be told by a reading; look at each:");
        foreach (var s in untold) text.WriteLine($"     - {s.Slip.Sentence}. {s.WhyNot}");
        text.WriteLine($"\nThen: slips{(proof.Touched.IsEmpty ? "" : $" at {Words.And(proof.Touched)}")}\n  {proof.WhySlips}");
        foreach (var r in proof.Readings.Skip(proof.ShortReadings))
        {
            text.WriteLine($"  {r.Number}. {r.Sentence} ({r.Meter})");
            if (r.Hint is { } hint) text.WriteLine($"     {hint}");
        }
        if (!proof.Looks.IsEmpty) text.WriteLine("\nLook at, before power");
        foreach (var look in proof.Looks) text.WriteLine($"  {(look.IsWrong ? "! " : "- ")}{look.LookAt}\n     {look.Evidence}");
        if (!proof.Unseen.IsEmpty) text.WriteLine($"\nLook at these leads, because no reading tells: {Words.Count(proof.Unseen.Length, "lug")}");
        foreach (var lug in proof.Unseen) text.WriteLine($"  {lug.Lug}: {string.Join("; ", lug.LookAt)}");
        if (chart is not null) Chart(text, chart);
        text.WriteLine($"\n{(outcome.Verdict == CheckVerdict.Open ? "" : "Entered: ")}{outcome.Sentence}");
        return text.ToString().TrimEnd();
    }

    /// <summary>For the pencil: one line a reading with a place for the figure.</summary>
    public static string Paper(string title, ProveResult proof)
    {
        var text = Begin(title, proof);
        if (proof.Reason is { } reason) return $"{text}  No proof can be worked out: {reason}";
        var table = new TextTable("", "", "red", "black", "healthy", "a short shows", "read");
        foreach (var r in proof.Readings)
            table.Add($"{r.Number}", r.Kind == Trade.Readings.ReadingKind.Ohms ? "Ω" : "F", r.From, r.To, Range(r), r.Number <= proof.ShortReadings ? ProveStage.LimitsOf(proof, r).Short : "", "________");
        text.WriteLine(table.ToString());
        foreach (var look in proof.Looks.Where(l => l.IsWrong).Concat(proof.Looks.Where(l => !l.IsWrong))) text.WriteLine($"[ ] {(look.IsWrong ? "! " : "")}{look.LookAt}");
        text.WriteLine($"[ ] {Words.Count(proof.Shorts.Count(s => !s.IsTold), "short")} and {Words.Count(proof.Unseen.Length, "lug")} that no reading tells are looked at.");
        return text.ToString().TrimEnd();
    }

    /// <summary>What healthy sets show, alone: "22 Ω to 59 Ω".</summary>
    public static string Range(CheckReading r)
    {
        var from = r.Sentence.IndexOf(": ", StringComparison.Ordinal) + 2;
        var about = r.Sentence.IndexOf(" (about", from, StringComparison.Ordinal);
        return about < 0 ? r.Sentence[from..] : r.Sentence[from..about];
    }

    private static StringWriter Begin(string title, ProveResult proof)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}: cold proof\n");
        foreach (var caution in proof.Cautions) text.WriteLine($"Caution: {caution.Sentence}");
        text.WriteLine();
        return text;
    }

    private static void Short(StringWriter text, ProveResult proof, CheckReading r)
    {
        var (pass, shown) = ProveStage.LimitsOf(proof, r);
        text.WriteLine($"  {r.Number}. {r.Sentence} ({r.Meter})");
        text.WriteLine($"     Pass: {pass}. A short: {shown}.{(r.Hint is { } hint ? $" {hint}" : "")}");
        text.WriteLine($"     Tells: {string.Join("; ", proof.Shorts.Where(s => s.By.Contains(r.Number)).Select(s => s.Slip.Sentence))}");
    }

    private static void Chart(StringWriter text, SheetResult chart)
    {
        text.WriteLine("\nOhms to common at every pin");
        var table = new TextTable("lug", "", "ohms", "healthy sets", "until it stands");
        foreach (var line in chart.Lines.Where(l => l.Ohms is not null))
            table.Add(line.Lug, line.What, Figures.Ohms(line.Ohms!.Value), $"{Figures.Ohms(line.OhmsLow ?? 0)} to {Figures.Ohms(line.OhmsHigh ?? double.PositiveInfinity)}", line.SettlingSeconds is { } s && double.IsFinite(s) && s >= 1 ? FormattableString.Invariant($"{s:0} s") : "");
        text.WriteLine(table.ToString());
    }
}
