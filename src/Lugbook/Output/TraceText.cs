using System.Globalization;
using Lugbook.Restoration.Trace;
using Lugbook.Trade.Readings;

namespace Lugbook.Output;

/// <summary>A search in words.</summary>
internal static class TraceText
{
    public static string Screen(string title, TraceResult result)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"{title}: what is still wrong?\n");
        foreach (var caution in result.Cautions) text.WriteLine($"Caution: {caution.Sentence}");
        text.WriteLine($"\n{result.Sentence}");
        foreach (var unused in result.Unused) text.WriteLine($"  Not used: {unused}");
        if (!result.Readings.IsEmpty)
        {
            var table = new TextTable("read", "shows", "healthy sets", "");
            foreach (var r in result.Readings)
                table.Add(TraceStage.At(r.Place), Figure(r.Place.Kind, r.Value, r.IsOver), $"{Figure(r.Place.Kind, r.HealthyLow)} to {Figure(r.Place.Kind, r.HealthyHigh)}", State(r));
            text.WriteLine($"\n{table}");
        }
        if (!result.Suspects.IsEmpty)
        {
            var table = new TextTable("", "suspect", "group", "what settles it");
            foreach (var s in Shown(result)) table.Add(Percent(s.Probability), $"{s.Words}{(s.Size.Length > 0 ? $" (about {s.Size})" : "")}", $"{s.Group}", s.Act);
            text.WriteLine($"{table}");
            text.WriteLine($"Nothing wrong: {Percent(result.Healthy)}. Something not in the list: {Percent(result.NotModelled)}. What shares a group no reading at the bench divides.");
            if (result.Readings.Length > 0) text.WriteLine($"What would change this: {result.Suspects[0].MindChanger}");
        }
        if (!result.Next.IsEmpty) text.WriteLine("\nRead next");
        foreach (var n in result.Next)
        {
            text.WriteLine($"  {n.Sentence} ({n.Meter}; {n.Bits.ToString("0.00", CultureInfo.InvariantCulture)} bits)");
            foreach (var (suspect, shows) in n.Each.Where(e => double.IsFinite(e.Shows))) text.WriteLine($"     {Figure(n.Place.Kind, shows)} if {suspect}");
        }
        foreach (var remark in result.Remarks) text.WriteLine($"\n{remark}");
        return text.ToString().TrimEnd();
    }

    /// <summary>Suspects worth a line: the first, and those of a hundredth or more, eight at most.</summary>
    public static IEnumerable<Suspect> Shown(TraceResult result) => result.Suspects.Where((s, i) => i == 0 || s.Probability >= 0.01).Take(8);

    /// <summary>A reading against the healthy set, in words.</summary>
    public static string State(TraceReading r) => r.Mistyped > 0.5 ? "mistyped, or another lug?" : r.IsOver ? r.HealthyHigh >= r.Value ? "as in a healthy set" : "higher" : r.Value > r.HealthyHigh ? "higher" : r.Value < r.HealthyLow ? "lower" : "as in a healthy set";

    /// <summary>A figure in the trade's notation.</summary>
    public static string Figure(ReadingKind kind, double value, bool over = false) => over ? $"over {Figure(kind, value)}" : kind switch
    {
        ReadingKind.Ohms => value >= 1e9 ? "over" : Figures.Ohms(value),
        ReadingKind.Volts => $"{value.ToString(Math.Abs(value) >= 100 ? "0" : Math.Abs(value) >= 10 ? "0.0" : "0.00", CultureInfo.InvariantCulture)} V",
        _ => Trade.Quantities.Notation.Print(value, Trade.Quantities.Unit.Farad, figures: 3),
    };

    /// <summary>A probability.</summary>
    public static string Percent(double p) => (100 * Math.Min(p, 0.999)).ToString(p is > 0.995 or < 0.01 ? "0.0" : "0", CultureInfo.InvariantCulture) + " %";
}
