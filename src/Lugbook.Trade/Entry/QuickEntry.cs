using Lugbook.Trade.Entry.Lines;
using Lugbook.Trade.Markings;

namespace Lugbook.Trade.Entry;

/// <summary>Quick entry: one line in the words of a bench note becomes changes to a book.</summary>
/// <remarks>The language is described, with a table of examples that a test runs, in docs/quick-entry.md.</remarks>
public static class QuickEntry
{
    /// <summary>The longest line that is read.</summary>
    public const int LongestLine = 400;

    /// <summary>What one line means for the book. Pure; never throws on bad input; nothing is entered.</summary>
    /// <param name="line">The bench note: "C7 .02 400 V3-6 V4-5".</param>
    /// <param name="context">The book so far and where the hand was last.</param>
    public static EntryResult Read(string line, EntryContext context) => Read(line, context, MarkingReader.Read);

    /// <summary>The same with another reader of markings.</summary>
    internal static EntryResult Read(string line, EntryContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        EntryResult Refused(int at, string problem, string remedy) => new() { Line = line, Complaints = [new("the bench note", line, at, problem, remedy)], Next = context };
        if (line.Length > LongestLine) return Refused(LongestLine, "the line is too long for a bench note", "Enter one part to a line.");
        var words = Words.Of(line);
        if (words.IsEmpty) return Refused(0, "an empty line", "Write a bench note such as: C7 .02 400 V3-6 V4-5.");
        if (AtLine.Ends(words, context))
            return new() { Line = line, Understood = "done", Next = context with { Mode = EntryMode.Normal } };
        if (AtLine.Begins(line, words, context) is var (lug, restAt)) return AtLug(line, lug, restAt, context, reader);
        if (words.Length == 1 && words[0].Is("at")) return Refused(line.Length, "at which lug?", "Write: at V3-5.");
        if (MountLine.IsOne(words)) return MountLine.Read(line, context);
        if (AmendLine.IsOne(words)) return AmendLine.Read(line, words, context);
        if (WireLine.IsOne(words, context.Book)) return WireLine.Read(line, context);
        return PartLine.Read(line, context, reader);
    }

    /// <summary>The next free reference of a letter: R3 after R2. See <see cref="References.Next"/>.</summary>
    public static string NextReference(Book book, string letters) => References.Next(book, letters);

    private static EntryResult AtLug(string line, LeadMention lug, int restAt, EntryContext context, Func<string, MarkingContext, MarkingResult> reader)
    {
        var note = new BenchNote { Line = line };
        var (edits, questions) = (new List<BookEdit>(), new List<EntryQuestion>());
        NewMounts.Lug(edits, lug.Lug, lug.At, note, context.Book, new(context.Book), questions);
        if (note.Complaints.Count > 0) return new() { Line = line, Complaints = [.. note.Complaints], Next = context };
        var book = edits.Aggregate(context.Book, (b, e) => e.Apply(b));
        var here = context with { Book = book, Mode = EntryMode.AllOnLug, LastLug = lug.Lug, LastMount = lug.Mount };
        if (line[restAt..].Trim(' ', ':', ',', ';', '.').Length > 0)
        {
            // Blanks in place of "at V3-5" keep the places of complaints true.
            var blank = new string(' ', restAt);
            var rest = Read(blank + line[restAt..], here, reader);
            string Back(string lines) => string.Join('\n', lines.Split('\n').Select(l => l.StartsWith(blank, StringComparison.Ordinal) ? line[..restAt] + l[restAt..] : l));
            return rest with
            {
                Line = line,
                Edits = rest.Complaints.IsEmpty ? [.. edits, .. rest.Edits] : [],
                Complaints = [.. rest.Complaints.Select(c => c with { Text = line })],
                Questions = [.. rest.Questions.Select(q => q with { Alternatives = [.. q.Alternatives.Select(a => a with { Lines = Back(a.Lines) })] })],
                Next = rest.Complaints.IsEmpty ? rest.Next : context,
            };
        }
        return new()
        {
            Line = line,
            Edits = [.. edits],
            Understood = Sentence.Of([$"at {lug.Lug}: {There(context.Book, lug.Lug)}"], null, [.. edits], [], []),
            Questions = [.. questions],
            Next = here,
        };
    }

    private static string There(Book book, string lug)
    {
        var leads = book.Parts.Where(p => p.Leads.Any(l => string.Equals(l.Lug, lug, StringComparison.OrdinalIgnoreCase))).Select(p => p.Name)
            .Concat(book.Wires.Where(w => new[] { w.From, w.To }.Contains(lug, StringComparer.OrdinalIgnoreCase)).Select(w => w.Name)).ToArray();
        return leads.Length == 0 ? "no leads yet" : string.Join(", ", leads);
    }
}
