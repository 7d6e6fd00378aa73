using Lugbook.Restoration.Order;

namespace Lugbook.Output;

/// <summary>The JSON shape of a plan.</summary>
internal static class PlanShape
{
    public static object Of(OrderPlan plan, Quotation? quotation) => new
    {
        plan.Money,
        plan.Currency,
        Proven = plan.IsProven,
        plan.Gap,
        plan.Proof,
        plan.Seconds,
        Suppliers = plan.Shops.Select(s => new { s.Supplier, s.Total, s.Goods, s.Filling, s.Postage, s.Sentence, Lines = s.Lines.Select(Line) }),
        Drawer = plan.FromDrawer.Select(Line),
        Positions = plan.Positions.Select(p => new { p.At.Book, p.At.Position, Supplier = p.Supplier ?? "drawer", p.Item, Part = p.Text, Difference = p.Why }),
        Others = plan.Others,
        Open = plan.Open.Select(Open),
        NotOrdered = plan.NotOrdered.Select(Open),
        plan.Consumables,
        plan.Remarks,
        plan.Questions,
        Quotation = quotation,
    };

    private static object Line(PlanLine l) => new { l.Item, Part = ChooseShape.Of(l.Part), l.Count, l.Needed, l.Each, l.Sum, l.Positions, l.Why, l.Where };
    private static object Open(OpenPosition o) => new { o.At.Book, o.At.Position, o.Reason };
}
