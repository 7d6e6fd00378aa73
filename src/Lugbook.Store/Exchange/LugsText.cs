using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade.Chassis;

namespace Lugbook.Store.Exchange;

/// <summary>Reads lugs, mounts and wires from text. Pure; as forgiving as <see cref="PartsText"/>.</summary>
public static class LugsText
{
    /// <summary>What a mount is called whose lugs are known only from the leads on them.</summary>
    internal const string InferredNote = "inferred from the names of the lugs; its kind is not known";

    /// <summary>Lugs from separated text. The mounts come with them; <see cref="MountsOf"/> lists those.</summary>
    public static TableRead<Lug> Read(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.LugTable, context ?? ReadingContext.None, t => Rows(t, []));

    /// <summary>Wires and bonds from separated text.</summary>
    public static TableRead<Wire> ReadWires(string text, ReadingContext? context = null) => TableReader.Text(text, Shapes.Wires, context ?? ReadingContext.None, WireRows);

    /// <summary>Mounts in the order in which lugs first name them, with the kind given beside any of their lugs.</summary>
    public static ImmutableArray<Mount> MountsOf(string text, ReadingContext? context = null)
    {
        var mounts = new List<Mount>();
        TableReader.Text(text, Shapes.LugTable, context ?? ReadingContext.None, t => Rows(t, mounts));
        return [.. mounts];
    }

    /// <summary>Lugs; their mounts are collected beside, each once.</summary>
    internal static IEnumerable<Lug> Rows(TableReader table, List<Mount> mounts)
    {
        var byName = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in table.Body())
        {
            var (name, mount, no) = Names(row);
            if (name is null) continue;
            var kind = row.Table.Context.Exact ? row.Raw("mount_kind") : row.Words("mount_kind") ?? "";
            if (!byName.TryGetValue(mount, out var at))
            {
                byName[mount] = mounts.Count;
                mounts.Add(new() { Name = mount, KindAsWritten = kind });
            }
            else if (kind.Length > 0 && mounts[at].KindAsWritten.Length == 0) mounts[at] = mounts[at] with { KindAsWritten = kind };
            else if (kind.Length > 0 && !table.Context.Exact && !kind.Equals(mounts[at].KindAsWritten, StringComparison.OrdinalIgnoreCase))
                row.Complain("mount_kind", 0, $"further up, mount {mount} is '{mounts[at].KindAsWritten}'.", "Give a mount one kind, or write it at its first lug only.");
            yield return new()
            {
                Id = row.Id(),
                Name = name,
                Mount = mount,
                No = no,
                Function = row.Words("function"),
                X = row.Number("x_mm", -10_000, 10_000),
                Y = row.Number("y_mm", -10_000, 10_000),
                Note = row.Words("note"),
                Extras = row.Extras(),
            };
        }
    }

    internal static IEnumerable<Mount> MountRows(TableReader table)
    {
        foreach (var row in table.Body())
        {
            if (row.Words("mount") is not { } name)
            {
                row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this row has no mount.", "Name the mount, as in V3.");
                continue;
            }
            yield return new() { Id = row.Id(), Name = name, KindAsWritten = row.Table.Context.Exact ? row.Raw("mount_kind") : row.Words("mount_kind") ?? "", Note = row.Words("note"), Extras = row.Extras() };
        }
    }

    internal static IEnumerable<Wire> WireRows(TableReader table)
    {
        var rows = table.Body().ToList();
        var taken = new HashSet<string>(rows.Select(r => r.Words("wire")).OfType<string>(), StringComparer.OrdinalIgnoreCase);
        var next = 1;
        foreach (var row in rows)
        {
            var (from, to) = (row.LugName("from"), row.LugName("to"));
            if (!table.Context.Exact && (from is null || to is null))
            {
                if (row.Raw("from").Trim().Length == 0 || row.Raw("to").Trim().Length == 0)
                    row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "a wire has two ends, and one is missing here.", "Write the lug of each end under from and to.");
                continue;
            }
            var name = row.Words("wire");
            while (name is null)
                if (taken.Add($"W{next.ToString(CultureInfo.InvariantCulture)}")) name = $"W{next.ToString(CultureInfo.InvariantCulture)}"; else next++;
            yield return new()
            {
                Id = row.Id(),
                Name = name,
                From = from ?? "",
                To = to ?? "",
                KindAsWritten = row.Words("kind"),
                Colour = row.Words("colour"),
                Note = row.Words("note"),
                Extras = row.Extras(),
            };
        }
    }

    /// <summary>A lug's name tells its mount and number when the columns do not: "V3-6" is no 6 of V3; "6" on V3 is "V3-6".</summary>
    internal static (string Mount, int? No) Split(string lug)
    {
        lug = lug.Replace(" pin ", "-", StringComparison.OrdinalIgnoreCase);
        var cut = lug.LastIndexOfAny(['-', '–', '.', ':', '/', '_', ' ']);
        if (cut <= 0 || cut == lug.Length - 1) return (lug, null);
        var tail = lug[(cut + 1)..].Trim();
        return (lug[..cut].Trim(), int.TryParse(tail, NumberStyles.None, CultureInfo.InvariantCulture, out var no) ? no : null);
    }

    private static (string? Name, string Mount, int? No) Names(RowCells row)
    {
        if (row.Table.Context.Exact) return (row.Raw("lug"), row.Raw("mount"), row.Whole("no"));
        var (name, mount, no) = (row.LugName("lug"), row.Words("mount"), row.Whole("no"));
        if (name is null && row.Raw("lug").Trim().Length > 0) return default;
        if (mount is not null && name is not null && no is null && int.TryParse(name, NumberStyles.None, CultureInfo.InvariantCulture, out var pin) && !row.Has("no"))
            (name, no) = ($"{mount}-{name}", pin);
        if (name is null && mount is not null && no is { } number) name = $"{mount}-{number.ToString(CultureInfo.InvariantCulture)}";
        if (name is null)
        {
            row.ComplainOfRow(string.Join(" | ", row.Row.Cells), "this row has no lug.", "Name the lug, as in V3-6, or give its mount and its number.");
            return default;
        }
        if (mount is null)
        {
            var (inferredMount, inferredNo) = Split(name);
            return (name, inferredMount, row.Has("no") ? no : inferredNo);
        }
        return (name, mount, no);
    }
}
