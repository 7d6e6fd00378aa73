using System.Globalization;
using System.Text;
using Lugbook.Restoration.Fit;

namespace Lugbook.Output;

/// <summary>A job sheet as text: to read on a screen, and to print and tick with a pencil.</summary>
internal static class FitText
{
    /// <summary>All that is known, to read.</summary>
    public static string Screen(string title, FitResult fit)
    {
        var steps = fit.Steps.Select(s =>
            $"{s.Number,3}. [{(s.Done ? "x" : " ")}] {s.Position}: {s.Old} -> {s.New ?? "none chosen yet"}\n       {s.Turn}\n" +
            (s.Together.IsEmpty ? "" : $"       Open together with {string.Join(", ", s.Together)}.\n") +
            string.Concat(s.Cautions.Select(c => $"       Caution: {c.Sentence}\n")) +
            string.Concat(s.Off.Select(l => $"       off {l.Lug} ({l.Letter}): {l.How}\n")) +
            string.Concat(s.On.Select(l => $"       on  {l.Lug} ({l.Letter}): {l.How}\n")) +
            $"       {s.Plan.Sentence}\n" + string.Concat(s.Plan.Leads.Select(l => $"       {FitWords.Lead(l)}. {l.SleeveWhy}\n")) + $"       {s.Plan.First}\n" + (s.Plan.MarkedEnd is null ? "" : $"       {s.Plan.MarkedEnd}\n") +
            (s.Polarity is null ? "" : $"       {s.Polarity}\n") + (s.Alike is null ? "" : $"       {s.Alike}\n") + (s.Open is null ? "" : $"       OPEN: {s.Open}\n"));
        var none = string.Concat(fit.NotOnSheet.Select(n => $"  {n.Position}: {n.Reason}\n"));
        return $"{title}\n{Disputed(fit)}\n{Cautions(fit)}\nLugs\n{Lugs(fit)}\nSteps ({fit.DoneCount} of {fit.StepCount} done). {fit.OrderRule}\n{string.Concat(steps)}"
            + $"\n{Clearance(fit)}\n{Materials(fit)}\n{Closing(fit)}{(none.Length == 0 ? "" : $"\nNot on the sheet:\n{none}")}";
    }

    /// <summary>One line a step with a box for the pencil; lugs and closing list after it. Cautions of the whole work stand once, at its head; what a step adds stands at the step.</summary>
    public static string Paper(string title, FitResult fit)
    {
        var text = new StringBuilder($"{title.ToUpper(CultureInfo.InvariantCulture)}\nJob sheet to tick with a pencil. Enter the ticks afterwards in one go: fit BOOK --done 1-14,17{(fit.Order.Gap > 0 ? ". This order is not proven, and another search may find another: enter them by part, --done C6,C7" : "")}\n{Disputed(fit)}\n{Cautions(fit)}\n");
        foreach (var s in fit.Steps)
        {
            var off = string.Join(", ", s.Off.Select(l => $"{l.Letter} {l.Lug}{(l.Verdict == LugVerdict.SpliceOntoShortTails ? " cut" : "")}"));
            text.Append(CultureInfo.InvariantCulture, $"[{(s.Done ? 'x' : ' ')}] {s.Number,3}  {s.Position,-6} {s.Old} > {s.New ?? "NONE YET"}  off {off}{(s.Polarity is null ? "" : $"  + {s.On.FirstOrDefault(l => l.How.StartsWith("Plus", StringComparison.Ordinal))?.Lug ?? "?"}")}{(s.Open is null ? "" : "  OPEN")}\n");
            text.Append(CultureInfo.InvariantCulture, $"         {string.Join("; ", s.Plan.Leads.OrderBy(l => l.Turn).Select(FitWords.Lead))}{(s.Together.IsEmpty ? "" : $"; open with {string.Join(", ", s.Together)}")}\n");
            foreach (var caution in s.Cautions.Except(fit.Cautions)) text.Append(CultureInfo.InvariantCulture, $"         Caution: {caution.Sentence}\n");
        }
        return $"{text}\nLugs\n{Lugs(fit)}\n{Materials(fit)}\n{Closing(fit)}";
    }

    private static string Disputed(FitResult fit) => fit.Contradictions.IsEmpty ? "" : $"\n{ContradictionWords.Banner(fit.Contradictions)}\n";

    private static string Cautions(FitResult fit) => string.Concat(fit.Cautions.Select(c => $"Caution: {c.Sentence}\n"));

    private static TextTable Lugs(FitResult fit)
    {
        var lugs = new TextTable("lug", "what to do", "comes off", "stays");
        foreach (var lug in fit.Lugs)
            lugs.Add(lug.Lug, FitWords.Verdict(lug.Verdict), string.Join(" ", lug.Off.Select(o => $"{o.Position}.{o.Letter}")),
                string.Join(" ", lug.Stay.Select(s => $"{s.Position}.{s.Letter}").Concat(lug.Wires.Select(w => w.Bond ? "bond" : w.Wire))));
        return lugs;
    }

    private static string Clearance(FitResult fit)
    {
        var pairs = fit.Clearance.Lugs.IsEmpty ? "" : "Lugs that are near for their voltage\n" + string.Concat(fit.Clearance.Lugs.Select(p => $"  {p.Sentence}\n"));
        return $"Clearance. {fit.Clearance.Rule}{(fit.Clearance.Unknown is { } unknown ? $" {unknown}" : "")}\n{pairs}";
    }

    private static string Materials(FitResult fit)
    {
        var table = new TextTable("material", "amount", "how it was counted");
        foreach (var m in fit.Materials) table.Add(m.What, string.Create(CultureInfo.InvariantCulture, $"{m.Amount:0.#} {m.Unit}"), m.Reason);
        var money = fit.Estimate.LabourHigh is { } high ? string.Create(CultureInfo.InvariantCulture, $" Labour {fit.Estimate.LabourLow:0.00} to {high:0.00}.") : "";
        var parts = fit.Estimate.PartsHigh > 0 ? string.Create(CultureInfo.InvariantCulture, $" New parts about {fit.Estimate.PartsLow:0.00} to {fit.Estimate.PartsHigh:0.00}.") : "";
        return $"Materials for what is left\n{table}\nTime for what is left: {FitWords.Time(fit.Estimate)}.{money}{parts} {fit.Estimate.Sentence}\n";
    }

    private static string Closing(FitResult fit) =>
        $"Before power: look at every lug that was touched; {fit.Inspection.Sum(i => i.CutEnds).ToString(CultureInfo.InvariantCulture)} cut ends must be found\n"
        + string.Concat(fit.Inspection.Select(i => $"[ ] {i.Lug}: {string.Join(" ", i.Look)} Cut ends: {i.CutEnds.ToString(CultureInfo.InvariantCulture)}.\n"));
}
