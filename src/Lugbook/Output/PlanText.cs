using System.Globalization;
using Lugbook.Restoration.Order;

namespace Lugbook.Output;

/// <summary>A plan and a quotation in words for a terminal.</summary>
internal static class PlanText
{
    /// <summary>"C5", or "radio/C5" where there are several books.</summary>
    public static string Place(PlacedAt at, bool several) => several ? $"{at.Book}/{at.Position}" : at.Position;

    /// <summary>"12.40 EUR".</summary>
    public static string Money(decimal amount, string? currency) => string.Create(CultureInfo.InvariantCulture, $"{amount:0.00}{(currency is null ? "" : " " + currency)}");

    /// <summary>"0.0325": up to four decimals, at least two.</summary>
    public static string Price(decimal? amount) => amount?.ToString("0.00##", CultureInfo.InvariantCulture) ?? "";

    public static string Of(string title, OrderPlan plan)
    {
        var text = new StringWriter { NewLine = "\n" };
        var several = plan.Positions.Concat(plan.Open.Select(o => new PlannedPosition(o.At, null, "", null!, ""))).Select(p => p.At.Book).Distinct().Count() > 1;
        text.WriteLine($"{title}\n");
        foreach (var question in plan.Questions) text.WriteLine($"Ask first: {question}");
        if (plan.Questions.Length > 0) text.WriteLine();
        foreach (var shop in plan.Shops)
        {
            text.WriteLine($"{shop.Supplier}: {Money(shop.Total, plan.Currency)}. {shop.Sentence}");
            var table = new TextTable("count", "item", "part", "each", "sum", "positions", "why");
            foreach (var l in shop.Lines) table.Add(Number(l.Count), l.Item, l.Part.Text, Price(l.Each), Price(l.Sum), string.Join(' ', l.Positions.Select(p => Place(p, several))), l.Why);
            text.Write(table);
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"goods {shop.Goods:0.00}{(shop.Filling > 0 ? $", to be filled up by {shop.Filling:0.00}" : "")}, postage {shop.Postage:0.00}\n"));
        }
        if (!plan.FromDrawer.IsEmpty)
        {
            text.WriteLine("From the drawer");
            var table = new TextTable("count", "item", "part", "where", "positions");
            foreach (var l in plan.FromDrawer) table.Add(Number(l.Count), l.Item, l.Part.Text, l.Where, string.Join(' ', l.Positions.Select(p => Place(p, several))));
            text.WriteLine(table);
        }
        text.WriteLine($"Together {Money(plan.Money, plan.Currency)}. {plan.Proof}");
        foreach (var other in plan.Others) text.WriteLine(other.Sentence);
        if (!plan.Open.IsEmpty) text.WriteLine("\nOpen: nothing fits, or there is not enough");
        foreach (var open in plan.Open) text.WriteLine($"  {Place(open.At, several)}: {open.Reason}");
        if (!plan.Remarks.IsEmpty) text.WriteLine();
        foreach (var remark in plan.Remarks) text.WriteLine($"Note: {remark}");
        if (!plan.Consumables.IsEmpty) text.WriteLine("\nUsed up by the work:");
        foreach (var used in plan.Consumables) text.WriteLine($"  {OrderWords.Amount(used)} of {used.What}: {used.Reason}");
        if (!plan.NotOrdered.IsEmpty) text.WriteLine("\nNot ordered:");
        foreach (var not in plan.NotOrdered) text.WriteLine($"  {Place(not.At, several)}: {not.Reason}");
        return text.ToString().TrimEnd();
    }

    public static string Of(string title, Quotation quotation)
    {
        var text = new StringWriter { NewLine = "\n" };
        text.WriteLine($"Quotation: {title}\n");
        var work = new TextTable("number", "work", "hours");
        foreach (var w in quotation.Work) work.Add(Number(w.Count), w.Work, Hours(w.Low, w.High));
        text.Write(work);
        text.WriteLine($"\nHours: {Hours(quotation.HoursLow, quotation.HoursHigh)}");
        if (quotation.LabourLow is { } low && quotation.LabourHigh is { } high) text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Labour: {low:0.00} to {high:0.00}"));
        if (quotation.PartsMoney is { } money) text.WriteLine($"Parts and postage: {Money(money, quotation.Currency)}");
        text.WriteLine("\nParts");
        var parts = new TextTable("number", "part");
        foreach (var p in quotation.Parts) parts.Add(Number(p.Count), p.Part);
        text.WriteLine(parts);
        foreach (var note in quotation.Notes) text.WriteLine($"Note: {note}");
        return text.ToString().TrimEnd();
    }

    /// <summary>"2.5 to 6".</summary>
    public static string Hours(double low, double high) => string.Create(CultureInfo.InvariantCulture, $"{low:0.0} to {high:0.0}");

    private static string Number(int n) => n.ToString(CultureInfo.InvariantCulture);
}
