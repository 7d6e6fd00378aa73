using System.Collections.Immutable;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Bench notes that take a part out, rename it or turn it round: "remove C7", "rename C7 C8", "swap C9".</summary>
/// <remarks>Moves and new values ("moved C7 a V3-5", "C7 value .05") are notes about a part like any other.</remarks>
internal static class AmendLine
{
    /// <summary>Is the line one of these?</summary>
    public static bool IsOne(ImmutableArray<Word> words) => words.Length >= 2 && words[0].Is("remove", "delete", "rename", "swap");

    /// <summary>What the line means for the book.</summary>
    public static EntryResult Read(string line, ImmutableArray<Word> words, EntryContext context)
    {
        var book = context.Book;
        EntryResult Refused(int at, string problem, string remedy) => new() { Line = line, Complaints = [new("the bench note", line, at, problem, remedy)], Next = context };
        if (book.Parts.Named(words[1].Text) is not { } part)
        {
            if (words[0].Is("remove", "delete") && book.Wires.Named(words[1].Text) is { } wire && words.Length == 2)
                return Done(new RemoveWire(wire), $"remove {wire.Name}; before: {ReadBack.Of(wire)}");
            return Refused(words[1].At, $"there is no part {words[1].Text} in the book", "Look at its reference again.");
        }
        var rename = words[0].Is("rename");
        var rest = words.Skip(2).Where(w => !w.Is("to", "as", "is", "the", "leads")).ToArray();
        if (rest.Length > (rename ? 1 : 0)) return Refused(rest[rename ? 1 : 0].At, $"'{rest[rename ? 1 : 0].Text}' is too much here", $"Write: {words[0].Key} {part.Name}{(rename ? " C8" : "")}.");
        if (words[0].Is("remove", "delete")) return Done(new RemovePart(part), $"remove {part.Name}; before: {ReadBack.Of(part)}");
        if (words[0].Is("swap"))
        {
            if (part.LeadA is null && part.LeadB is null) return Refused(words[1].At, $"{part.Name} has no leads on lugs", "Enter its lugs first.");
            return Change(part with { LeadA = part.LeadB, LeadB = part.LeadA });
        }
        if (rest.Length == 0) return Refused(line.Length, $"{part.Name} gets which new name?", $"Write: rename {part.Name} C8.");
        var name = rest[0].Text.ToUpperInvariant();
        if (Reference.Split(name) is { Number: 0 } || name.Any(c => !char.IsAsciiLetterOrDigit(c))) return Refused(rest[0].At, $"'{rest[0].Text}' is no reference", "Write letters and a number: C8, C12A.");
        if (book.Parts.Named(name) is { } taken && taken.Id != part.Id) return Refused(rest[0].At, $"there is a {taken.Name} already", "Write a reference that is free.");
        return Change(part with { Name = name });

        EntryResult Change(Parts.Part after) => Done(new ChangePart(part, after), $"{ReadBack.Of(after)}; before: {ReadBack.Of(part)}");
        EntryResult Done(BookEdit edit, string said) => new() { Line = line, Edits = [edit], Understood = said, Next = context with { Book = edit.Apply(book) } };
    }
}
