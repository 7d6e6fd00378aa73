using System.Collections.Immutable;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>"at V3-5" begins "all leads on this lug"; "done" ends it.</summary>
internal static class AtLine
{
    /// <summary>Does the line end the mode?</summary>
    public static bool Ends(ImmutableArray<Word> words, EntryContext context) =>
        words.Length == 1 && (words[0].Is("done", "end") || (words[0].Is("at") && context.Mode == EntryMode.AllOnLug));

    /// <summary>The lug that the line begins with, and where the rest begins; null when the line is something else.</summary>
    public static (LeadMention Lug, int RestAt)? Begins(string line, ImmutableArray<Word> words, EntryContext context)
    {
        if (words.Length < 2 || !words[0].Is("at")) return null;
        // Only the words that make up the lug: "V3-5", "V3 5", "V3 pin 5".
        for (var count = 1; count <= Math.Min(3, words.Length - 1); count++)
        {
            var (start, end) = (words[1].At, words[count].End);
            var note = NoteReader.Read(new string(' ', start) + line[start..end], context, context.LastMount, partsOnly: false);
            if (note.Leads.Count == 1 && note.Bare.Count == 0 && note.Complaints.Count == 0) return (note.Leads[0], end);
        }
        return null;
    }
}
