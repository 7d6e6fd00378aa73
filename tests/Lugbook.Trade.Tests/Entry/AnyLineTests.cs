using System.Globalization;
using CsCheck;
using Lugbook.Trade.Entry;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>Properties of quick entry: no line throws, none half applies, what is read back reads the same. Source: docs/quick-entry.md.</summary>
public class AnyLineTests
{
    private static readonly string[] Notes =
    [
        .. Bench.Page.Where(l => l.StartsWith("| `", StringComparison.Ordinal)).Select(l => l.Split(" | ")[0][3..^1]),
    ];

    private static readonly string[] Shards =
    [
        "R3", "C7", "c12a", "V3-6", "A-2", "v3", "5", ".05", "600", "47k", "½", "1/2", "watt", "+", "-", "minus", "plus", "wiper", "same as", "R2", "?", "\"", "(", ")", ",", ";",
        "20/25", "40-20-20", "mfd", "at", "mount", "wire", "moved", "from", "to", "a", "brown", "black", "orange", "meg", "half", "point", "oh", "hundred", "note", "chassis",
        "ground", "done", "ohm", "%", "±", "10", "0", "1/0", "-5", "E99", "T1P", "octal", "strip", "foot", "99999999999999999999", "µ", "ß", "😀", "\t", "rename", "remove", "swap", "assumed:", "V", "x", ".", "/", "@",
    ];

    private static Gen<T> One<T>(params T[] of) => Gen.Int[0, of.Length - 1].Select(i => of[i]);

    private static readonly Gen<string> AnyLine = Gen.OneOf(
        Gen.String[0, 60],
        Gen.Select(One(Shards).Array[0, 14], One(" ", "", ", ", "  ")).Select((s, by) => string.Join(by, s)),
        Gen.Select(One(Notes), Gen.Int[0, 60], Gen.Int[0, 3], One(Shards)).Select((n, at, cut, s) =>
        {
            at = Math.Min(at, n.Length);
            return n[..at] + s + n[Math.Min(n.Length, at + cut)..];
        }));

    private static bool IsSound(string line, EntryContext context)
    {
        var result = QuickEntry.Read(line, context);
        var whole = result.Complaints.IsEmpty || (result.Edits.IsEmpty && ReferenceEquals(result.Next, context));
        var placed = result.Complaints.All(c => c.At >= 0 && c.At <= c.Text.Length && c.Problem.Length > 0 && c.Remedy.Length > 0);
        var says = result.Understood.Length > 0 || !result.Complaints.IsEmpty || !result.Questions.IsEmpty;
        var asks = result.Questions.All(q => q.Alternatives.Length > 1);
        return whole && placed && says && asks && result.Apply(context.Book).Equals(result.Next.Book);
    }

    [Fact]
    public void No_line_throws_and_none_half_applies() => AnyLine.Sample(line => IsSound(line, Bench.Start), iter: 3000);

    [Fact]
    public void Nor_in_all_leads_on_this_lug() =>
        AnyLine.Sample(line => IsSound(line, Bench.Start with { Mode = EntryMode.AllOnLug, LastLug = "V3-5", LastMount = "V3" }), iter: 1000);

    [Fact]
    public void Nor_in_an_empty_book() => AnyLine.Sample(line => IsSound(line, EntryContext.For(Book.Empty("e", "E"))), iter: 1000);

    private static bool ReadsBack(EntryResult result, EntryContext context)
    {
        if (!result.IsReady || result.Understood.Length == 0 || !result.Edits.Any(e => e is AddPart)) return true;
        var again = EntryBatch.Read(result.Understood, context with { Mode = EntryMode.Normal });
        return again.Lines.All(l => l.Result.Complaints.IsEmpty) && again.GoodOnes.Parts.Count == result.Next.Book.Parts.Count
            && again.GoodOnes.Parts.Zip(result.Next.Book.Parts).All(p => IsSame(p.First, p.Second));
    }

    /// <summary>All but what is printed on the part: that is in other words.</summary>
    private static bool IsSame(Part a, Part b) =>
        (a.Value is null) == (b.Value is null) && Math.Abs((a.Value ?? 0) - (b.Value ?? 0)) <= 1e-6 * Math.Abs(b.Value ?? 0)
        && a with { Marked = null, Value = null, Tolerance = null } == b with { Marked = null, Value = null, Tolerance = null }
        && Math.Abs((a.Tolerance?.Plus ?? 0) - (b.Tolerance?.Plus ?? 0)) < 1e-9;

    [Fact]
    public void What_was_understood_reads_the_same_again() =>
        Assert.All(Notes.Select(n => Bench.Read(n)), r => Assert.True(ReadsBack(r, Bench.Start), $"{r.Line}: {r.Understood}"));

    [Fact]
    public void A_part_of_any_value_reads_the_same_again()
    {
        var parts = Gen.Select(One("R", "C"), Gen.Int[1, 999], One(0.001, 0.01, 0.1, 1.0, 10.0), One("", " 10%", " ±5 %"), One("", " paper", " mica"), Gen.Int[1, 5], Gen.Int[1, 6]);
        parts.Sample((letter, digits, scale, tolerance, kind, a, b) =>
        {
            var value = (digits * scale).ToString("0.######", CultureInfo.InvariantCulture);
            var line = letter == "R" ? $"R77 {value}k 1W{tolerance} A-{a} B-{b}" : $"C77 {value} mfd 400v{tolerance}{kind} A-{a} B-{b}";
            var result = Bench.Read(line);
            return result.Complaints.IsEmpty && result.Next.Book.Parts.Named(letter + "77") is { Value: not null } && ReadsBack(result, Bench.Start);
        }, iter: 1000);
    }

    [Fact]
    public void Entering_what_was_understood_once_more_changes_nothing()
    {
        foreach (var note in Notes)
        {
            var result = Bench.Read(note);
            if (!result.IsReady || !result.Edits.Any(e => e is AddPart or ChangePart) || result.Edits.Any(e => e is RemovePart)) continue;
            var again = EntryBatch.Read(result.Understood, result.Next with { Mode = EntryMode.Normal });
            Assert.True(again.Complaints.IsEmpty, $"{note}: {string.Join(' ', again.Complaints)}");
            Assert.Equal(result.Next.Book.Parts, again.GoodOnes.Parts);
        }
    }

    [Theory]
    [InlineData("de-DE"), InlineData("tr-TR"), InlineData("fr-FR"), InlineData("ar-SA")]
    public void The_machine_s_language_changes_nothing(string culture)
    {
        var invariant = Notes.Select(n => Bench.Read(n).Understood).ToArray();
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.Equal(invariant, Notes.Select(n => Bench.Read(n).Understood));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
