using System.CommandLine;
using System.Globalization;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;

namespace Lugbook.Commands;

/// <summary>"order": what do I buy, once?</summary>
internal static class OrderCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var csv = new Option<bool>("--csv") { Description = "Write the list as comma-separated values." };
        var measure = new Option<bool>("--with-measured") { Description = "Order also for positions that are to be measured first." };
        var spares = new Option<int>("--spares") { Description = "Spares of each line.", DefaultValueFactory = _ => 0 };
        spares.Validators.Add(result => { if (result.GetValueOrDefault<int>() is < 0 or > 100) result.AddError("--spares is a number from 0 to 100."); });
        var command = new BenchWord("order", "What do I buy, once? One list from all positions.",
            "lugbook order data/demo/amp",
            "lugbook order data/demo/amp --csv",
            "lugbook order data/demo/amp --with-measured --spares 1")
        { book, json, csv, measure, spares };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var disputed = map.Contradictions.Where(c => c.Weight == Weight.Contradiction).ToArray();
            if (disputed.Length > 0) await parsed.InvocationConfiguration.Error.WriteLineAsync(ContradictionWords.Banner(disputed));
            var order = OrderStage.Run(
                opened.Data.Choose(map),
                new() { IncludeMeasureFirst = parsed.GetValue(measure), SparesPerLine = parsed.GetValue(spares) });
            await parsed.InvocationConfiguration.Output.WriteLineAsync(
                parsed.GetValue(json) ? Json.Write(OrderShape(opened.Book.Name, order)) : parsed.GetValue(csv) ? OrderStage.Csv(order).TrimEnd() : Sentences(opened.Book.Facts.Title, order));
            return disputed.Length == 0 ? ExitCode.Done : ExitCode.No;
        });
        return command;
    }

    private static object OrderShape(string book, OrderResult order) => new
    {
        Book = book,
        order.Count,
        Lines = order.Lines.Select(l => new { l.Count, Part = ChooseShape.Of(l.Part), l.Positions, l.Spares, l.PriceLow, l.PriceHigh }),
        order.Consumables,
        order.NotOrdered,
        order.PriceLow,
        order.PriceHigh,
        order.PriceNote,
        order.Questions,
    };

    private static string Sentences(string title, OrderResult order)
    {
        var table = new TextTable("count", "part", "positions", "example price");
        foreach (var line in order.Lines)
            table.Add(line.Count.ToString(CultureInfo.InvariantCulture), line.Part.Text, string.Join(" ", line.Positions), OrderWords.Band(line.PriceLow, line.PriceHigh));
        var used = string.Concat(order.Consumables.Select(c => $"  {OrderWords.Amount(c)} of {c.What}: {c.Reason}\n"));
        var questions = string.Concat(order.Questions.Select(q => $"Ask first: {q}\n"));
        var none = string.Concat(order.NotOrdered.Select(n => $"  {n.Position}: {n.Reason}\n"));
        return $"{title}\n\n{questions}{table}\n{Words.Count(order.Count, "part")}, {OrderWords.Band(order.PriceLow, order.PriceHigh)}. {order.PriceNote}\n\nUsed up by the work:\n{used}\nNot ordered:\n{none}";
    }
}
