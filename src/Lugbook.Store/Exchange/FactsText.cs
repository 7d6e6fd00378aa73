using System.Globalization;
using Lugbook.Trade;

namespace Lugbook.Store.Exchange;

/// <summary>The facts of a set: rows of a key and a value.</summary>
internal static class FactsText
{
    /// <summary>What the table says; a null name or title is not given.</summary>
    internal sealed record Said(BookFacts Facts, string? Name)
    {
        public static Said Nothing { get; } = new(new BookFacts { Title = "" }, null);
    }

    /// <summary>Reads the facts.</summary>
    public static TableRead<Said> Read(Grid grid, ReadingContext context) => TableReader.Rows<Said>(grid, Shapes.Facts, context, table => [Apply(table)]);

    private static Said Apply(TableReader table)
    {
        var (facts, name) = Said.Nothing;
        foreach (var row in table.Body())
        {
            if (row.Words("value") is not { } value) continue;
            switch (HeaderWords.Normal(row.Raw("key")))
            {
                case "name": name = value; break;
                case "title" or "set": facts = facts with { Title = value }; break;
                case "story" or "history" or "note" or "notes": facts = facts with { Story = value }; break;
                case "year" or "made" or "made in": facts = facts with { Year = (int?)Number(row, 1880, 2100) }; break;
                case "line volts" or "line voltage" or "mains volts" or "mains voltage" or "mains": facts = facts with { LineVolts = Number(row, 0, 1000) }; break;
                case "line hertz" or "line frequency" or "mains frequency" or "mains hertz" or "hertz" or "frequency": facts = facts with { LineHertz = Number(row, 0, 1000) }; break;
                case "today line volts" or "line today" or "bench line volts": facts = facts with { TodayLineVolts = Number(row, 0, 1000) }; break;
                case "meter" or "my meter": facts = facts with { Meter = value }; break;
                case "policy": facts = facts with { Policy = value }; break;
                case "fit rules": facts = facts with { FitRules = value }; break;
                case "chart line volts": facts = facts with { ChartLineVolts = Number(row, 0, 1000) }; break;
                case "chart ohms per volt" or "chart ohm per volt": facts = facts with { ChartOhmsPerVolt = Number(row, 10, 1e6) }; break;
                case "chart input ohms" or "chart meter ohms": facts = facts with { ChartInputOhms = Number(row, 1e3, 1e12) }; break;
                case "common lug" or "common": facts = facts with { CommonLug = value }; break;
                case "m means" or "m" or "meg habit": facts = facts with { MegHabit = Habit(row, value) }; break;
                default: row.Remark($"the fact '{row.Raw("key").Trim()}' is not known and was left out; put it into the story to keep it."); break;
            }
        }
        return new(facts, name);
    }

    private static MegHabit Habit(RowCells row, string value)
    {
        switch (value.Trim().ToLowerInvariant())
        {
            case "thousand" or "1000" or "k" or "kilo": return MegHabit.Thousand;
            case "million" or "1000000" or "meg" or "mega": return MegHabit.Million;
            case "unknown" or "?": return MegHabit.Unknown;
        }
        row.Complain("value", 0, "M can mean a thousand or a million.", "Write thousand, million or unknown.");
        return MegHabit.Unknown;
    }

    private static double? Number(RowCells row, double least, double most)
    {
        var text = row.Raw("value").Trim();
        if (RowCells.IsNothing(text)) return null;
        var plain = NumberText.Plain(text.TrimEnd(' ', 'V', 'v', 'H', 'h', 'z', 'Z', '~'), row.Table.Habit, out var at, out var problem);
        if (plain is null)
        {
            row.Complain("value", at, problem!, "Write a plain number.");
            return null;
        }
        var value = NumberText.Scaled(plain, 0);
        return row.InBounds("value", value, least, most) ? value : null;
    }

    private static string? Text(double? number) => number is { } n ? NumberText.Write(n) : null;

    /// <summary>The facts as a table; what is not known has no row.</summary>
    public static WrittenTable Write(Book book)
    {
        var facts = book.Facts;
        var rows = new List<(string, string?)>
        {
            ("name", book.Name), ("title", facts.Title), ("year", facts.Year?.ToString(CultureInfo.InvariantCulture)), ("story", facts.Story),
            ("line_volts", Text(facts.LineVolts)), ("line_hertz", Text(facts.LineHertz)),
            ("today_line_volts", Text(facts.TodayLineVolts)), ("meter", facts.Meter), ("policy", facts.Policy), ("fit_rules", facts.FitRules),
            ("chart_line_volts", Text(facts.ChartLineVolts)), ("chart_ohms_per_volt", Text(facts.ChartOhmsPerVolt)), ("chart_input_ohms", Text(facts.ChartInputOhms)),
            ("common_lug", facts.CommonLug), ("m_means", facts.MegHabit == MegHabit.Unknown ? null : facts.MegHabit.ToString().ToLowerInvariant()),
        };
        return new("book", ["key", "value"], [.. rows.Where(r => r.Item2 is not null).Select(r => (System.Collections.Immutable.ImmutableArray<WrittenCell>)[new(r.Item1), new(r.Item2!)])]);
    }
}
