using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Sheets;

namespace Lugbook.Restoration.Compare;

/// <summary>Is the chassis what the sheet says? The sheet's parts list against the book's parts, and likely former repairs.</summary>
public static class CompareStage
{
    /// <summary>Pure: the same book, the same answer. Without a sheet only the likely repairs are found.</summary>
    /// <remarks>
    /// Parts are matched by reference without regard to case, blanks and dashes ("C-7" is C7). A sheet line C12 is matched by the
    /// chassis sections C12A, C12B, …; their values are then not compared.
    /// </remarks>
    public static CompareResult Run(Book book)
    {
        var chassis = book.Parts.Where(p => p.Name.Trim().Length > 0).GroupBy(p => Key(p.Name)).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var sheet = book.SheetParts.Where(p => p.Name.Trim().Length > 0).GroupBy(p => Key(p.Name)).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var sections = chassis.Values.Where(p => SectionOf(p) is not null).ToLookup(p => SectionOf(p)!, StringComparer.Ordinal);

        var differences = new List<Difference>();
        var replaced = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        var compared = 0;
        foreach (var (key, listed) in sheet)
        {
            if (chassis.TryGetValue(key, out var part))
            {
                compared++;
                foreach (var difference in Differ(listed, part))
                {
                    differences.Add(difference);
                    if (RepairReason(difference) is { } reason) Add(replaced, part.Name, reason);
                }
            }
            else if (sections.Contains(key)) compared++;
            else differences.Add(Missing(listed, chassis.Values.Where(p => !sheet.ContainsKey(Key(p.Name))).ToArray()));
        }
        if (sheet.Count > 0)
            foreach (var (key, part) in chassis)
                if (!sheet.ContainsKey(key) && !(SectionOf(part) is { } whole && sheet.ContainsKey(whole)) && IsListedKind(part, sheet.Values))
                    differences.Add(new(part.Name, DifferenceKind.Extra, null, Figures.Of(part), $"{part.Name} ({Figures.Of(part)}) is on the chassis but not on the sheet.",
                        "Look whether the maker changed the circuit within the run, or someone added it."));

        foreach (var part in book.Parts)
            foreach (var reason in RepairSigns.Of(part, book)) Add(replaced, part.Name, reason);
        return new()
        {
            Differences = [.. differences.OrderBy(d => Padded(d.Name), StringComparer.Ordinal).ThenBy(d => d.Kind)],
            Repairs = [.. replaced.OrderBy(r => Padded(r.Key), StringComparer.Ordinal).Select(r => new LikelyRepair(r.Key, [.. r.Value.Distinct()]))],
            Compared = compared,
        };
    }

    private static IEnumerable<Difference> Differ(SheetPart sheet, Part part)
    {
        var (wanted, found) = (Figures.Of(sheet), Figures.Of(part));
        var kind = PartKinds.Of(sheet.KindAsWritten);
        if (part.Kind == PartKind.Valve || kind == PartKind.Valve)
        {
            if (sheet.Marked is { } type && part.Marked is { } fitted && Key(type) != Key(fitted))
                yield return new(part.Name, DifferenceKind.Type, type, fitted, $"{part.Name}: sheet {type}, chassis {fitted}.", "See whether the type fitted is an equivalent of the sheet's.");
            yield break;
        }
        if (KindDiffers(kind, part.Kind))
            yield return new(part.Name, DifferenceKind.Kind, sheet.KindAsWritten, part.KindAsWritten, $"{part.Name}: sheet {sheet.KindAsWritten}, chassis {part.KindAsWritten}.", "Likely a former repair; see whether the kind suits the position.");
        if (sheet.Value is { } want && part.Value is { } have && (sheet.Unit ?? PartKinds.UnitOf(kind)) == (part.Unit ?? PartKinds.UnitOf(part.Kind)))
            switch (ValueComparison.Of(want, have, part.Kind, sheet.Tolerance, part.Tolerance))
            {
                case ValueVerdict.Near:
                    yield return new(part.Name, DifferenceKind.NearValue, wanted, found, $"{part.Name}: sheet {wanted}, chassis {found}, within the tolerance.", "Nothing to do; it may be a former repair.");
                    break;
                case ValueVerdict.Thousand:
                    yield return new(part.Name, DifferenceKind.MegHabit, wanted, found, $"{part.Name}: sheet {wanted}, chassis {found}: a thousand apart, so M means thousand on one of them.", "Set in the book's facts what M means on this sheet.");
                    break;
                case ValueVerdict.Outside:
                    yield return new(part.Name, DifferenceKind.Value, wanted, found, $"{part.Name}: sheet {wanted}, chassis {found}.", "Read the body again; if it is so, decide by the circuit which is right before ordering.");
                    break;
                case ValueVerdict.Same:
                default:
                    break;
            }
        if (sheet.RatedVolts is { } volts && part.RatedVolts is { } bears && bears < volts * 0.99)
            yield return new(part.Name, DifferenceKind.LowerRating, $"{Figures.Number(volts)} V", $"{Figures.Number(bears)} V", $"{part.Name}: sheet {Figures.Number(volts)} V, chassis {Figures.Number(bears)} V.", "Replace it by one of the sheet's rating or more.");
        if (sheet.RatedWatts is { } watts && part.RatedWatts is { } takes && takes < watts * 0.99)
            yield return new(part.Name, DifferenceKind.LowerRating, $"{Figures.Number(watts)} W", $"{Figures.Number(takes)} W", $"{part.Name}: sheet {Figures.Number(watts)} W, chassis {Figures.Number(takes)} W.", "Replace it by one of the sheet's rating or more.");
    }

    private static Difference Missing(SheetPart listed, IReadOnlyList<Part> extras)
    {
        var kind = PartKinds.Of(listed.KindAsWritten);
        var like = extras.FirstOrDefault(p => listed.Value is { } v && p.Value is { } w && Math.Abs(w / v - 1) < 0.002 && !KindDiffers(kind, p.Kind));
        return new(listed.Name, DifferenceKind.Missing, Figures.Of(listed), null, $"{listed.Name} ({Figures.Of(listed)}) is on the sheet but not on the chassis.",
            like is null ? "Look for it; it may be left out in this run, taken out, or not entered yet." : $"Look whether {like.Name}, of the same value and not on the sheet, is the one.");
    }

    private static string? RepairReason(Difference difference) => difference.Kind switch
    {
        DifferenceKind.Value => $"Its value is not the sheet's: sheet {difference.Sheet}, chassis {difference.Chassis}.",
        DifferenceKind.NearValue => $"Its nominal value is another than the sheet's: sheet {difference.Sheet}, chassis {difference.Chassis}.",
        DifferenceKind.LowerRating => $"Its rating is below the sheet's: sheet {difference.Sheet}, chassis {difference.Chassis}.",
        DifferenceKind.Kind => $"Its kind is not the sheet's: sheet {difference.Sheet}, chassis {difference.Chassis}.",
        _ => null,
    };

    /// <summary>Kinds differ when both are known, and neither is the general word for the other.</summary>
    private static bool KindDiffers(PartKind sheet, PartKind chassis)
    {
        if (sheet == PartKind.Other || chassis == PartKind.Other || sheet == chassis) return false;
        if (sheet == PartKind.Capacitor || chassis == PartKind.Capacitor) return !(sheet.IsCapacitor() && chassis.IsCapacitor());
        return !(sheet is PartKind.Mica or PartKind.SilverMica && chassis is PartKind.Mica or PartKind.SilverMica);
    }

    /// <summary>A list that has no windings or lamps at all simply does not list them.</summary>
    private static bool IsListedKind(Part part, IEnumerable<SheetPart> sheet) =>
        part.Kind is PartKind.Resistor || part.Kind.IsFixedCapacitor()
            ? sheet.Any(s => PartKinds.Of(s.KindAsWritten) is var k && (k.IsFixedCapacitor() == part.Kind.IsFixedCapacitor()) && (k == PartKind.Resistor) == (part.Kind == PartKind.Resistor))
            : sheet.Any(s => PartKinds.Of(s.KindAsWritten) == part.Kind);

    /// <summary>C12 for the section C12A of a body; null for a whole part.</summary>
    private static string? SectionOf(Part part)
    {
        var key = Key(part.Name);
        return part.Group is not null && key.Length > 2 && char.IsAsciiLetter(key[^1]) && char.IsAsciiDigit(key[^2]) ? key[..^1] : null;
    }

    private static string Key(string name) => name.Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal).Trim().ToUpperInvariant();

    /// <summary>Numbers padded, so that R3 comes before R12.</summary>
    private static string Padded(string name) => System.Text.RegularExpressions.Regex.Replace(Key(name), @"\d+", m => m.Value.PadLeft(6, '0'));

    private static void Add(Dictionary<string, List<string>> replaced, string name, string reason)
    {
        if (!replaced.TryGetValue(name, out var reasons)) replaced.Add(name, reasons = []);
        reasons.Add(reason);
    }
}
