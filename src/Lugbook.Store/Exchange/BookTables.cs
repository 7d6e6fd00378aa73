using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Photographs;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Readings;

namespace Lugbook.Store.Exchange;

/// <summary>A book as tables ready to be written: CSV, workbook and archive write the same.</summary>
internal static class BookTables
{
    /// <summary>All tables; "mounts" is among them only where the lugs do not already tell all about the mounts.</summary>
    /// <param name="book">What to write.</param>
    /// <param name="exact">True for the archive: identities and mounts are always written, so that nothing has to be told from the rest.</param>
    /// <param name="withMounts">True to write the mounts even where the lugs tell them.</param>
    public static ImmutableArray<WrittenTable> Of(Book book, bool exact = false, bool withMounts = false)
    {
        var kinds = book.Mounts.GroupBy(m => m.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(g => g.Key, g => g.First().KindAsWritten, StringComparer.OrdinalIgnoreCase);
        var tables = ImmutableArray.CreateBuilder<WrittenTable>();
        tables.Add(FactsText.Write(book));
        if (exact || withMounts || !LugsTellTheMounts(book, kinds))
            tables.Add(Table(Shapes.Mounts, book.Mounts, exact, m => [Words(m.Name), Words(m.KindAsWritten), Words(m.Note)]));
        tables.Add(Table(Shapes.LugTable, book.Lugs, exact, l => [Words(l.Name), Words(l.Mount), Words(kinds.GetValueOrDefault(l.Mount)), WrittenCell.Of(l.No), Words(l.Function), WrittenCell.Of(l.X), WrittenCell.Of(l.Y), Words(l.Note)]));
        tables.Add(Table(Shapes.Parts, book.Parts, exact, p =>
        [
            Words(p.Name), Words(p.KindAsWritten), Words(p.Marked), WrittenCell.Of(p.Value), Unit(p.Unit), WrittenCell.Of(p.RatedVolts), WrittenCell.Of(p.RatedWatts), Tolerance(p.Tolerance),
            Words(p.LeadA), Words(p.LeadB), Words(p.LeadC), Words(p.PlusLead?.ToString()), Words(p.Group), Words(p.Code), Words(p.Note),
            WrittenCell.Of(p.BodyX), WrittenCell.Of(p.BodyY), WrittenCell.Of(p.BodyTurn),
        ]));
        tables.Add(Table(Shapes.Wires, book.Wires, exact, w => [Words(w.Name), Words(w.From), Words(w.To), Words(w.KindAsWritten), Words(w.Colour), Words(w.Note)]));
        tables.Add(Table(Shapes.Declared, book.Declared, exact, d => [Words(d.Name), WrittenCell.Of(d.Volts), Words(d.Why)]));
        tables.Add(Table(Shapes.Sheet, book.SheetReadings, exact, r => [Words(r.Valve), Words(r.Pin), WrittenCell.Of(r.Volts), Words(r.IsAc ? "ac" : "dc"), Ohms(r.Ohms), Words(r.Note)]));
        tables.Add(Table(Shapes.SheetParts, book.SheetParts, exact, p =>
            [Words(p.Name), Words(p.KindAsWritten), Words(p.Marked), WrittenCell.Of(p.Value), Unit(p.Unit), WrittenCell.Of(p.RatedVolts), WrittenCell.Of(p.RatedWatts), Tolerance(p.Tolerance), Words(p.Note)]));
        tables.Add(Table(Shapes.Work, book.Work, exact, w => [Words(w.Name), Words(WorkText.Spelling(w.Decision)), Words(w.Reason), Words(w.Replacement), Words(w.Role), Words(w.Done ? "yes" : ""), Words(w.DoneAt?.ToString("O", CultureInfo.InvariantCulture)), Words(w.DoneStep?.ToString(CultureInfo.InvariantCulture)), Words(w.Problem), Words(w.Note)]));
        if (book.Readings.Count > 0 || exact)
            tables.Add(Table(Shapes.Readings, book.Readings, exact, r =>
            [
                Words(r.Name), Words(ReadingWords.Of(r.Kind)), WrittenCell.Of(r.Value), Words(r.IsOver ? "yes" : ""), Words(r.IsLifted ? "yes" : ""), Words(r.LiftedPart), Words(r.IsReversed ? "yes" : ""), Words(r.Meter),
                WrittenCell.Of(r.TestVolts), Words(r.At?.ToString("O", CultureInfo.InvariantCulture)), Words(r.Note), Words(r.FromLug), Words(r.ToLug),
            ]));
        if (book.Meters.Count > 0 || exact)
            tables.Add(Table(Shapes.Meters, book.Meters, exact, m =>
            [
                Words(m.Name), Words(MeterWords.Of(m.Function)), WrittenCell.Of(m.Top), WrittenCell.Of(m.ReadingPercent), WrittenCell.Of(m.FullScalePercent), WrittenCell.Of(m.Digits), WrittenCell.Of(m.Counts),
                WrittenCell.Of(m.TestVolts), WrittenCell.Of(m.InputOhms), WrittenCell.Of(m.OhmsPerVolt), WrittenCell.Of(m.Hertz), Words(m.Note),
            ]));
        if (book.ValveTypes.Count > 0 || exact)
            tables.Add(Table(Shapes.ValveTypes, book.ValveTypes, exact, v =>
            [
                Words(v.Name), Words(v.Equivalents), Words(v.Class), Words(v.Base), Words(v.Pinout), WrittenCell.Of(v.HeaterVolts), WrittenCell.Of(v.HeaterAmperes), WrittenCell.Of(v.MaxPlateVolts), WrittenCell.Of(v.MaxPlateWatts),
                WrittenCell.Of(v.MaxScreenVolts), WrittenCell.Of(v.MaxScreenWatts), WrittenCell.Of(v.MaxCathodeMilliamperes), WrittenCell.Of(v.MaxHeaterCathodeVolts), Words(v.Source), Words(v.Note),
            ]));
        if (book.ValveLines.Count > 0 || exact)
            tables.Add(Table(Shapes.ValveLines, book.ValveLines, exact, l =>
            [
                Words(l.Name), WrittenCell.Of(l.PlateVolts), WrittenCell.Of(l.ScreenVolts), WrittenCell.Of(l.GridVolts), WrittenCell.Of(l.Grid3Volts), WrittenCell.Of(l.CathodeOhms), WrittenCell.Of(l.PlateMilliamperes),
                WrittenCell.Of(l.ScreenMilliamperes), WrittenCell.Of(l.Micromhos), WrittenCell.Of(l.PlateOhms), WrittenCell.Of(l.Mu), Words(l.Connection), Words(l.Kind), Words(l.VoltsTo), Words(l.Source), Words(l.Confidence),
            ]));
        tables.AddRange(OfPhotographs(book, exact));
        return tables.ToImmutable();
    }

    /// <summary>The tables of photographs, where there are any.</summary>
    public static ImmutableArray<WrittenTable> OfPhotographs(Book book, bool exact = false)
    {
        var tables = ImmutableArray.CreateBuilder<WrittenTable>();
        if (book.Photographs.Count > 0 || exact)
            tables.Add(Table(Shapes.Photographs, book.Photographs, exact, p =>
                [Words(p.Name), Words(p.Content), Words(p.MediaType), WrittenCell.Of(p.Width), WrittenCell.Of(p.Height), Words(PhotoWords.Of(p.Moment)), Words(p.Place), Words(p.Caption)]));
        if (book.PhotoPins.Count > 0 || exact)
            tables.Add(Table(Shapes.PhotoPins, book.PhotoPins, exact, p => [Words(p.Photograph), Words(p.Name), WrittenCell.Of(p.X), WrittenCell.Of(p.Y), Words(p.OnlyPoints ? "yes" : "")]));
        return tables.ToImmutable();
    }

    private static bool LugsTellTheMounts(Book book, Dictionary<string, string> kinds)
    {
        var told = book.Lugs.Select(l => l.Mount).Distinct(StringComparer.OrdinalIgnoreCase)
            .Select((name, i) => new Mount { Id = i + 1, Name = name, KindAsWritten = kinds.GetValueOrDefault(name) ?? "" });
        return book.Mounts.SequenceEqual(told);
    }

    private static WrittenTable Table<T>(TableShape shape, Table<T> rows, bool exact, Func<T, WrittenCell[]> cells) where T : Row
    {
        var headers = shape.Written.ToList();
        var lines = rows.Select(row => cells(row).ToList()).ToArray();
        // Places of bodies are rare: their columns are written where there are any.
        for (var i = headers.Count - 1; i >= 0; i--)
            if (headers[i].StartsWith("body_", StringComparison.Ordinal) && lines.All(l => l[i].Text.Length == 0))
            {
                headers.RemoveAt(i);
                foreach (var line in lines) line.RemoveAt(i);
            }
        var identities = exact || rows.Where((row, i) => row.Id != i + 1).Any();
        if (identities) headers.Add("row_id");
        var extras = ExtraColumns(rows);
        headers.AddRange(extras);
        return new(shape.Name, [.. headers], [.. rows.Select((row, n) =>
        {
            var line = ImmutableArray.CreateBuilder<WrittenCell>(headers.Count);
            line.AddRange(lines[n]);
            if (identities) line.Add(WrittenCell.Of(row.Id));
            foreach (var key in extras) line.Add(WrittenCell.Of(row.Extras.TryGetValue(key, out var text) ? text : ""));
            return line.MoveToImmutable();
        })]);
    }

    /// <summary>All unknown columns, in an order that no row contradicts as long as the rows agree; first mention decides the rest.</summary>
    private static List<string> ExtraColumns<T>(Table<T> rows) where T : Row
    {
        var order = new List<string>();
        foreach (var row in rows)
        {
            var after = 0;
            foreach (var key in row.Extras.Keys)
            {
                if (order.IndexOf(key) is var at and >= 0) after = Math.Max(after, at + 1);
                else order.Insert(after++, key);
            }
        }
        return order;
    }

    private static WrittenCell Words(string? words) => WrittenCell.Of(words);
    private static WrittenCell Unit(Unit? unit) => new(unit is { } known ? UnitWords.Spelling(known) : "");
    /// <summary>Per cent, as a number where a workbook's number leads back to exactly the same fraction.</summary>
    private static WrittenCell Tolerance(Tolerance? tolerance)
    {
        if (tolerance is not { } known) return new("");
        var text = ToleranceText.Write(known);
        return known.IsSymmetric && NumberText.Scaled(NumberText.Write(NumberText.Scaled(text, 0)), -2) == known.Plus ? new(text, NumberText.Scaled(text, 0)) : new(text);
    }

    private static WrittenCell Ohms(double? ohms) => ohms is double.PositiveInfinity ? new("INF") : WrittenCell.Of(ohms);
}
