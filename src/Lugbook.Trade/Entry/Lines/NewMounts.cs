using Lugbook.Trade.Chassis;
using Lugbook.Trade.Chassis.Templates;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Mounts and lugs that a note names and the book does not have yet; they are proposed, and said.</summary>
internal static class NewMounts
{
    /// <summary>Edits for the lugs of a part, and a valve's or control's own mount.</summary>
    public static List<BookEdit> For(Part part, BenchNote note, EntryContext context, List<EntryQuestion> questions)
    {
        var (book, lugs) = (context.Book, new LugNames(context.Book));
        var edits = new List<BookEdit>();
        if (part.Kind == PartKind.Valve)
        {
            if (book.Mounts.Named(part.Name) is not null) return edits;
            if (note.Socket is { } socket) Template(edits, socket, part.Name, book);
            else if (context.Handbook.Find(part.Marked) is { } type && MountTemplates.Socket(type.Base) is { } fits)
            {
                Template(edits, fits, part.Name, book);
                note.Assumed.Add($"{fits.KindAsWritten} (the handbook's base of {type.Type})");
            }
            else note.Assumed.Add($"its socket is entered later (mount {part.Name} octal, noval, 7-pin …)");
            return edits;
        }
        if (part.Kind == PartKind.Control && book.Mounts.Named(part.Name) is null && part.Leads.Any(l => Same(MountOf(l.Lug), part.Name)))
            Template(edits, MountTemplates.Control, part.Name, book);
        foreach (var lead in part.Leads) Lug(edits, lead.Lug, At(note, lead.Lug), note, book, lugs, questions);
        return edits;
    }

    /// <summary>Edits for one lug; none when the book has it.</summary>
    public static void Lug(List<BookEdit> edits, string name, int at, BenchNote note, Book book, LugNames lugs, List<EntryQuestion> questions)
    {
        if (lugs.Exact(name) is not null || edits.OfType<AddLug>().Any(e => Same(e.Lug.Name, name))) return;
        var mountName = MountOf(name);
        var no = int.TryParse(name.AsSpan(name.LastIndexOf('-') + 1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : (int?)null;
        var mount = book.Mounts.Named(mountName);
        if (mount is not null && no > PinsOf(mount.Kind))
        {
            note.Complain(at, $"{mount.Name} ({mount.KindAsWritten}) has lugs 1 to {ValueText.Number(PinsOf(mount.Kind))}; there is no {name}", "Count the pins again from the key or gap, clockwise as seen from below.");
            return;
        }
        if (mount is null && !edits.OfType<AddMount>().Any(e => Same(e.Mount.Name, mountName)))
        {
            var kind = MountTemplates.LikelyKind(mountName);
            edits.Add(new AddMount(new() { Name = mountName, KindAsWritten = kind }, Implied: true));
            if (kind == "valve socket" && !(no > PinsOf(MountTemplates.Noval)) && questions.All(q => q.Ask != $"Which socket is the new {mountName}?"))
                questions.Add(new($"Which socket is the new {mountName}?",
                [
                    new("not known yet", note.Line),
                    .. new[] { "octal", "noval", "7-pin", "loctal" }.Where(s => no is null || no <= PinsOf(MountTemplates.Socket(s)!)).Select(s => new EntryAlternative(s, $"mount {mountName} {s}\n{note.Line}")),
                ]));
        }
        edits.Add(new AddLug(new() { Name = name, Mount = mountName, No = no, Function = name.EndsWith("-cap", StringComparison.OrdinalIgnoreCase) ? "top cap" : null }, Implied: true));
    }

    private static void Template(List<BookEdit> edits, MountTemplate template, string name, Book book)
    {
        var (mount, lugs) = template.Place(name);
        edits.Add(new AddMount(mount, Implied: true));
        edits.AddRange(lugs.Where(l => book.Lugs.Named(l.Name) is null).Select(l => new AddLug(l, Implied: false)));
    }

    private static int At(BenchNote note, string lug) => note.Leads.FirstOrDefault(l => Same(l.Lug, lug))?.At ?? 0;

    /// <summary>How many pins a socket of this kind has; no bound for anything else.</summary>
    private static int PinsOf(MountKind kind) => PinCircles.Of(kind)?.Pins.Length ?? int.MaxValue;

    private static int PinsOf(MountTemplate template) => template.Lugs.Length;

    /// <summary>The mount that a lug's name names: V3 of V3-6; the name itself when it has no number.</summary>
    public static string MountOf(string lug)
    {
        var hyphen = lug.LastIndexOf('-');
        return hyphen > 0 ? lug[..hyphen] : lug;
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
