using System.Globalization;
using Lugbook.Restoration.Wake;

namespace Lugbook.Output;

/// <summary>The first power on a terminal.</summary>
internal static class WakeText
{
    public static string Of(string title, WakeResult wake)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}: first power\n");
        if (wake.Reason is { } reason)
        {
            text.WriteLine(reason);
            return text.ToString().TrimEnd();
        }
        foreach (var caution in wake.Cautions) text.WriteLine($"Caution: {caution}");
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\nFor a line of {wake.LineVolts:0} V.\n"));
        if (!wake.Lamps.IsEmpty)
        {
            var lamps = new TextTable("lamp", "set gets", "current", "lamp looks", "a short draws", "");
            foreach (var l in wake.Lamps)
                lamps.Add(WakeWords.Amount(l.Watts, "W"), WakeWords.Amount(l.SetVolts, "V"), WakeWords.Amount(l.Amperes, "A"), l.Glow, WakeWords.Amount(l.ShortAmperes, "A"), $"{WakeWords.Verdict(l.Verdict)}: {l.Sentence}");
            text.WriteLine(lamps.ToString());
        }
        foreach (var step in wake.Steps) Step(text, step);
        Stores(text, wake);
        foreach (var remark in wake.Remarks) text.WriteLine($"Note: {remark}");
        return text.ToString().TrimEnd();
    }

    /// <summary>A re-forming plan.</summary>
    public static string Of(Reforming plan)
    {
        if (plan.Reason is { } reason) return $"{plan.Position}: re-forming\n\n{reason}";
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{plan.Position}: re-forming, {plan.Farads * 1e6:0.#} µF {plan.RatedVolts:0} V\n"));
        foreach (var caution in plan.Cautions) text.WriteLine($"Caution: {caution}");
        text.WriteLine($"\n{WakeWords.Ohms(plan.Ohms)} in series, {WakeWords.Amount(plan.SupplyVolts, "V")}. {WakeWords.Reform(plan)}\n");
        var table = new TextTable("after", "across the resistor", "current", "across the capacitor", "slow above");
        foreach (var m in plan.Course) table.Add(WakeWords.Minutes(m.Minutes), WakeWords.Amount(m.ResistorVolts, "V"), WakeWords.Amount(m.Amperes, "A"), WakeWords.Amount(m.CapacitorVolts, "V"), WakeWords.Amount(m.MostResistorVolts, "V"));
        text.WriteLine(table.ToString());
        text.WriteLine("Note: a simple model of a sound capacitor (docs/wake.md); yours may take longer or never come.");
        return text.ToString().TrimEnd();
    }

    private static void Step(StringWriter text, WakeStep step)
    {
        text.WriteLine($"{step.Number}. {step.Title}\n   {step.Connect}\n   {step.Purpose}");
        if (step.Needs is { } needs) text.WriteLine($"   NEEDED: {needs}");
        foreach (var caution in step.Cautions) text.WriteLine($"   Caution: {caution}");
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"   Wait {step.WaitSeconds:0} s.{(step.Glow is { } glow ? $" Lamp of a healthy set then: {glow}." : "")}\n"));
        var table = new TextTable("", "expected", "healthy sets", "switch off", "set against");
        foreach (var e in step.Expected) table.Add(e.What.Words, WakeWords.Amount(e.Nominal, e.What.Unit), WakeWords.Range(e), WakeWords.Stop(e), WakeWords.Stop(e).Length > 0 ? e.Why : "");
        text.WriteLine(table.ToString());
        var missed = step.Faults.Where(f => !f.Caught).Select(f => f.Words).ToArray();
        text.WriteLine($"   {step.Faults.Length - missed.Length} of {Words.Count(step.Faults.Length, "serious fault")} would be stopped here.{(missed.Length > 0 ? $" Not: {string.Join(", ", missed)}." : "")}\n");
    }

    private static void Stores(StringWriter text, WakeResult wake)
    {
        if (wake.Stores.IsEmpty) return;
        text.WriteLine("After switch-off, cathodes cold (measure, never trust):\n");
        var table = new TextTable("store", "measure at", "starts at", "energy", "below 60 V", "below 5 V", "by", "with your bleeder below 5 V");
        foreach (var s in wake.Stores)
            table.Add(s.Position, s.Lug, WakeWords.Amount(s.StartVolts, "V"), string.Create(CultureInfo.InvariantCulture, $"{s.Joules:0.##} J"), WakeWords.Time(s.Below60), WakeWords.Time(s.Below5), s.Path,
                s.BleederPeakWatts is { } watts ? string.Create(CultureInfo.InvariantCulture, $"{WakeWords.Time(s.BleederBelow5)}, {watts:0} W at first") : "");
        text.WriteLine(table.ToString());
    }
}
