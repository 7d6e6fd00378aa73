using Lugbook.Trade.Work;

namespace Lugbook.Store.Exchange;

/// <summary>Reads what was decided and done from text. Pure.</summary>
public static class WorkText
{
    /// <summary>Decisions from separated text.</summary>
    public static TableRead<PositionWork> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Work, context ?? ReadingContext.None, Rows);

    internal static IEnumerable<PositionWork> Rows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if ((table.Context.Exact ? row.Raw("ref") : row.Words("ref")) is not { } name)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this row has no reference.", "Give the reference of the part at this position.");
                continue;
            }
            yield return new()
            {
                Id = row.Id(),
                Name = name,
                Decision = DecisionOf(row),
                Reason = row.Words("reason"),
                Replacement = row.Words("replacement"),
                Role = row.Words("role"),
                Done = DoneOf(row),
                Problem = row.Words("problem"),
                Note = row.Words("note"),
                Extras = row.Extras(),
            };
        }
    }

    /// <summary>How Lugbook writes a decision.</summary>
    internal static string Spelling(Decision decision) => decision switch
    {
        Decision.Goes => "goes",
        Decision.Stays => "stays",
        Decision.MeasureFirst => "measure first",
        _ => "",
    };

    private static Decision DecisionOf(RowCells row)
    {
        if (row.Words("decision") is not { } text) return Decision.Undecided;
        switch (HeaderWords.Normal(text))
        {
            case "goes" or "go" or "replace" or "replaced" or "out" or "change": return Decision.Goes;
            case "stays" or "stay" or "keep" or "kept" or "ok" or "good" or "leave": return Decision.Stays;
            case "measure first" or "measure" or "test" or "check" or "to be measured" or "measurefirst": return Decision.MeasureFirst;
            case "undecided" or "" or "open" or "unknown": return Decision.Undecided;
        }
        row.Complain("decision", 0, "this decision is not known.", "Write goes, stays or measure first, or leave it empty.");
        return Decision.Undecided;
    }

    private static bool DoneOf(RowCells row)
    {
        if (row.Words("done") is not { } text) return false;
        switch (text.ToLowerInvariant())
        {
            case "yes" or "y" or "x" or "1" or "true" or "done" or "✓" or "✔" or "ja" or "oui" or "si" or "wahr" or "vrai": return true;
            case "no" or "n" or "0" or "false" or "-" or "nein" or "non" or "nee" or "falsch" or "faux": return false;
        }
        row.Complain("done", 0, "this is neither yes nor no.", "Write yes or no, or leave it empty.");
        return false;
    }
}
