using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Order;
using Lugbook.Store.Exchange;

namespace Lugbook.Commands;

/// <summary>"order": what do I buy, once?</summary>
internal static class OrderCommand
{
    public static Command Create()
    {
        var books = new Argument<string[]>("BOOK") { Description = Shared.Book().Description + " Several books are ordered together.", Arity = ArgumentArity.OneOrMore };
        var json = Shared.Json();
        var csv = new Option<bool>("--csv") { Description = "Write the list as comma-separated values." };
        var xlsx = new Option<string?>("--xlsx") { Description = "Write the plan as a workbook: FILE.xlsx." };
        var measure = new Option<bool>("--with-measured") { Description = "Order also for positions that are to be measured first." };
        var spares = new Option<int>("--spares") { Description = "Spares of each line.", DefaultValueFactory = _ => 0 };
        spares.Validators.Add(result => { if (result.GetValueOrDefault<int>() is < 0 or > 100) result.AddError("--spares is a number from 0 to 100."); });
        var drawer = new Option<string?>("--drawer") { Description = "What you have, counted: CSV or XLSX with columns description (or kind, value, volts, watts) and count." };
        var offers = new Option<string[]>("--offers") { Description = "Lists of suppliers: CSV or XLSX with columns item, description and price or breaks; docs/order.md.", AllowMultipleArgumentsPerToken = true };
        var pins = new Option<string[]>("--pin") { Description = "POSITION=ITEM or BOOK/POSITION=ITEM: this item and no other stands there; of a pair both, as 'C5=N1 + N2'." };
        pins.Validators.Add(result => { foreach (var pin in result.GetValueOrDefault<string[]>() ?? []) if (PinOf(pin) is null) result.AddError($"--pin takes POSITION=ITEM, such as C5=N1005; '{pin}' is not that."); });
        var bans = new Option<string[]>("--ban") { Description = "An item that is not wanted, by its number or text." };
        var linePrice = new Option<decimal>("--line-price") { Description = "What one line less is worth to you, in the lists' currency; not paid.", DefaultValueFactory = _ => new OrderRules().LinePrice };
        linePrice.Validators.Add(result => { if (result.GetValueOrDefault<decimal>() is < 0 or > 1000) result.AddError("--line-price is an amount from 0 to 1000."); });
        var seconds = new Option<double>("--seconds") { Description = "Time for the plan; then the best so far, and how much cheaper another could be.", DefaultValueFactory = _ => 10 };
        seconds.Validators.Add(result => { if (result.GetValueOrDefault<double>() is not (>= 0.1 and <= 3600)) result.AddError("--seconds is a number from 0.1 to 3600."); });
        var quote = new Option<bool>("--quote") { Description = "Write a quotation for the owner: parts and a range of hours, without purchase prices." };
        var prices = new Option<bool>("--with-prices") { Description = "With --quote: also what the parts cost." };
        var hour = new Option<decimal?>("--hour-price") { Description = "With --quote: price of an hour." };
        var command = new BenchWord("order", "What do I buy, once? One list from all positions; with lists of suppliers the cheapest plan, proven.",
            "lugbook order data/demo/amp",
            "lugbook order data/demo/amp --csv",
            "lugbook order data/demo/amp --with-measured --spares 1",
            "lugbook order data/demo/amp data/demo/radio --offers data/lists/northgate.csv data/lists/suedufer.csv --drawer data/lists/drawer.csv",
            "lugbook order data/demo/amp --offers data/lists/northgate.csv --pin C6=N1008 --ban N1206",
            "lugbook order data/demo/amp --quote --hour-price 40")
        { books, json, csv, xlsx, measure, spares, drawer, offers, pins, bans, linePrice, seconds, quote, prices, hour };
        command.SetAction(async (parsed, stop) =>
        {
            var (output, error) = (parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error);
            var opened = new List<(BookInput Input, BookChoices Choices)>();
            var disputed = false;
            foreach (var path in parsed.GetValue(books)!)
            {
                if (await BookInput.OpenAsync(path, error, stop) is not { } one) return ExitCode.WrongInput;
                var map = MapStage.Run(one.Book, one.Data.Handbook);
                var contradictions = map.Contradictions.Where(c => c.Weight == Weight.Contradiction).ToArray();
                if (contradictions.Length > 0) await error.WriteLineAsync(ContradictionWords.Banner(contradictions));
                disputed |= contradictions.Length > 0;
                if (opened.Any(o => o.Choices.Book.Equals(one.Book.Name, StringComparison.OrdinalIgnoreCase)))
                {
                    await error.WriteLineAsync($"lugbook: two books are called '{one.Book.Name}'. Name each once, or rename one of them.");
                    return ExitCode.WrongInput;
                }
                opened.Add((one, new(one.Book.Name, one.Data.Choose(map))));
            }
            var policy = new OrderPolicy { IncludeMeasureFirst = parsed.GetValue(measure), SparesPerLine = parsed.GetValue(spares) };
            var (lists, first) = (parsed.GetValue(offers) ?? [], opened[0].Input);
            var plain = lists.Length == 0 && parsed.GetValue(drawer) is null && opened.Count == 1 && parsed.GetValue(pins) is null or [] && parsed.GetValue(bans) is null or [] && parsed.GetValue(xlsx) is null && !parsed.GetValue(quote);
            if (plain)
            {
                var order = OrderStage.Run(opened[0].Choices.Choices, policy);
                await output.WriteLineAsync(
                    parsed.GetValue(json) ? Json.Write(OrderShape(first.Book.Name, order)) : parsed.GetValue(csv) ? OrderStage.Csv(order).TrimEnd() : Sentences(first.Book.Facts.Title, order));
                return disputed ? ExitCode.No : ExitCode.Done;
            }
            if (await SupplyInput.ReadAsync(parsed.GetValue(drawer), lists, first.Data.Policy.Catalogue, error, stop) is not { } supply) return ExitCode.WrongInput;
            var rules = new OrderRules
            {
                Policy = policy, LinePrice = parsed.GetValue(linePrice), Pins = [.. (parsed.GetValue(pins) ?? []).Select(p => PinOf(p)!)], Bans = [.. parsed.GetValue(bans) ?? []],
                Limit = TimeSpan.FromSeconds(parsed.GetValue(seconds)),
            };
            ImmutableArray<BookChoices> choices = [.. opened.Select(o => o.Choices)];
            var plan = await Task.Run(() => OrderStage.Plan(choices, supply, rules, new SolveTeller(error), stop), CancellationToken.None);
            var quotation = parsed.GetValue(quote) ? OrderStage.Quote(choices, plan, new() { ShowPartPrices = parsed.GetValue(prices), HourPrice = parsed.GetValue(hour) }) : null;
            var title = string.Join(" and ", opened.Select(o => o.Input.Book.Facts.Title));
            if (parsed.GetValue(xlsx) is { } file)
            {
                var written = await Saving.WriteAsync(parsed, file, path => TableFiles.WriteAsync(path, TableFiles.ToXlsx([.. PlanTables.Of(plan)]), CancellationToken.None));
                if (written != ExitCode.Done) return written;
            }
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(PlanShape.Of(plan, quotation)) : quotation is not null ? PlanText.Of(title, quotation)
                : parsed.GetValue(csv) ? Encoding.UTF8.GetString(TableFiles.ToCsv(PlanTables.Lines(plan))).TrimStart('\uFEFF').TrimEnd() : PlanText.Of(title, plan));
            return disputed || !plan.Open.IsEmpty ? ExitCode.No : ExitCode.Done;
        });
        return command;
    }

    /// <summary>"C5=N1005" or "radio/C5=N1005"; null when it is neither.</summary>
    private static Pin? PinOf(string text)
    {
        var at = text.IndexOf('=', StringComparison.Ordinal);
        if (at <= 0 || at == text.Length - 1) return null;
        var (place, item) = (text[..at].Trim(), text[(at + 1)..].Trim());
        var slash = place.IndexOf('/', StringComparison.Ordinal);
        return slash < 0 ? new(null, place, item) : new(place[..slash], place[(slash + 1)..], item);
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
