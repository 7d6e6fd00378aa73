using Lugbook.Trade.Entry;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>Source: docs/quick-entry.md: every row of its tables is read and must answer as printed. Bench language of our own; trade words: common practice, no source.</summary>
public class PageTests
{
    /// <summary>Rows of the tables: section, note, answer. A section whose heading ends in "in order" is read line after line.</summary>
    private static IEnumerable<(string Section, string Note, string Answer)> Rows()
    {
        var section = "";
        foreach (var line in Bench.Page)
        {
            if (line.StartsWith("## ", StringComparison.Ordinal)) section = line[3..];
            if (!line.StartsWith("| `", StringComparison.Ordinal)) continue;
            var cells = line.Split(" | ");
            yield return (section, cells[0][3..^1], cells[1].TrimEnd(' ', '|').Trim('`'));
        }
    }

    private static string Answer(EntryResult result) =>
        !result.Complaints.IsEmpty ? "refused: " + string.Join("; ", result.Complaints.Select(c => c.Problem))
        : result.Questions.IsEmpty ? result.Understood.Replace("\n", " // ", StringComparison.Ordinal)
        : (result.Understood.Length > 0 ? result.Understood.Replace("\n", " // ", StringComparison.Ordinal) + " — " : "") + "asks: " + string.Join(" ", result.Questions);

    [Fact]
    public void Every_example_of_the_page_answers_as_printed()
    {
        var wrong = new List<string>();
        var (context, inOrder, count) = (Bench.Start, "", 0);
        foreach (var (section, note, answer) in Rows())
        {
            if (section != inOrder) (context, inOrder) = (Bench.Start, section);
            var result = Bench.Read(note, context);
            if (section.EndsWith("in order", StringComparison.Ordinal) && result.IsReady) context = result.Next;
            if (Answer(result) != answer) wrong.Add($"{note}\n   page: {answer}\n   now:  {Answer(result)}");
            count++;
        }
        Assert.True(count >= 80, $"only {count} examples were found on the page");
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public void Every_answer_of_the_page_has_words_and_every_refusal_a_place_and_a_remedy()
    {
        foreach (var (_, note, _) in Rows())
        {
            var result = Bench.Read(note);
            Assert.True(result.Understood.Length > 0 || !result.Complaints.IsEmpty || !result.Questions.IsEmpty, note);
            Assert.All(result.Complaints, c => Assert.True(c.At >= 0 && c.At <= note.Length && c.Remedy.Length > 0 && c.Text == note, note));
            Assert.All(result.Questions, q => Assert.True(q.Alternatives.Length > 1, note));
            if (!result.Complaints.IsEmpty) Assert.Empty(result.Edits);
        }
    }
}
