using System.Globalization;
using System.Text;
using Lugbook.Restoration.Layout;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Drawing;

/// <summary>Things of the drawing in words: for a pointer's hint and for a screen reader.</summary>
internal static class Words
{
    public static string Of(Part part, WorkState work)
    {
        var text = new StringBuilder(part.Name).Append(", ").Append(part.KindAsWritten);
        if (!string.IsNullOrWhiteSpace(part.Marked)) text.Append(' ').Append(part.Marked!.Trim());
        else if (Value(part) is { } value) text.Append(' ').Append(value);
        var leads = part.Leads;
        if (leads.Length > 0)
        {
            text.Append(", ").Append(leads[0].Lug);
            for (var i = 1; i < leads.Length; i++) text.Append(i == 1 ? " to " : ", slider on ").Append(leads[i].Lug);
            if (leads.Length == 1 && PartKinds.LeadsOf(part.Kind) > 1) text.Append(", other lead not known");
        }
        else if (part.Kind != PartKind.Valve) text.Append(", on no lug yet");
        if (part.PlusLug is { } plus) text.Append(part.Kind.IsRectifier() ? ", cathode on " : ", + on ").Append(plus);
        if (work != WorkState.None) text.Append(". ").Append(InWords(work));
        return text.ToString();
    }

    public static string Of(PlacedLug lug, int leads)
    {
        var text = new StringBuilder(lug.Name);
        if (!string.IsNullOrWhiteSpace(lug.Row?.Function)) text.Append(", ").Append(lug.Row!.Function!.Trim());
        if (!string.IsNullOrWhiteSpace(lug.Row?.Note)) text.Append(", ").Append(lug.Row!.Note!.Trim());
        text.Append(leads switch { 0 => ", no leads", 1 => ", one lead", _ => string.Create(CultureInfo.InvariantCulture, $", {leads} leads") });
        if (!lug.Measured) text.Append(lug.Id == 0 ? ", not in the table of lugs" : ", place supposed");
        return text.ToString();
    }

    public static string Of(PlacedMount mount) => mount.Name + ", " + mount.KindAsWritten
        + (mount.Lugs.Length switch { 0 => ", no lugs entered", 1 => ", one lug", var n => string.Create(CultureInfo.InvariantCulture, $", {n} lugs") });

    public static string Of(Wire wire) => wire.Kind == WireKind.Bond
        ? $"{wire.Name}, bond, {wire.From} to {wire.To}: metal to metal, to be tested"
        : $"{wire.Name}, {(string.IsNullOrWhiteSpace(wire.Colour) ? "" : wire.Colour.Trim() + " ")}{wire.KindAsWritten ?? "wire"}, {wire.From} to {wire.To}";

    public static string InWords(WorkState work) => work switch
    {
        WorkState.Done => "Done", WorkState.ToDo => "To do", WorkState.Measure => "To be measured first", WorkState.Stays => "Stays", _ => "",
    };

    public static WorkState State(PositionWork? work) => work switch
    {
        null => WorkState.None,
        { Done: true } => WorkState.Done,
        { Decision: Decision.Goes } => WorkState.ToDo,
        { Decision: Decision.Stays } => WorkState.Stays,
        { Decision: Decision.MeasureFirst } => WorkState.Measure,
        _ => WorkState.None,
    };

    /// <summary>What stands beside a part: its marking when that is short, otherwise its value; null when neither is known.</summary>
    public static string? Short(Part part)
    {
        var marked = part.Marked?.Trim();
        if (part.Kind is PartKind.Winding or PartKind.Switch or PartKind.Speaker or PartKind.SubUnit or PartKind.Glass) return null;
        return !string.IsNullOrEmpty(marked) && marked.Length <= 14 ? marked : Value(part);
    }

    private static string? Value(Part part)
    {
        if (part.Value is not { } v || !double.IsFinite(v) || v < 0) return null;
        return part.Unit switch
        {
            Unit.Ohm => Scaled(v, "Ω", [(1e6, "M"), (1e3, "k"), (1, "")]),
            Unit.Farad => Scaled(v, "F", [(1e-6, "µ"), (1e-9, "n"), (1e-12, "p")]),
            Unit.Henry => Scaled(v, "H", [(1, ""), (1e-3, "m"), (1e-6, "µ")]),
            _ => null,
        };
    }

    private static string Scaled(double value, string unit, (double Factor, string Prefix)[] scale)
    {
        foreach (var (factor, prefix) in scale)
            if (value >= factor * 0.9999) return (value / factor).ToString("0.###", CultureInfo.InvariantCulture) + " " + prefix + unit;
        return (value / scale[^1].Factor).ToString("0.###", CultureInfo.InvariantCulture) + " " + scale[^1].Prefix + unit;
    }
}

/// <summary>How far the work at a position is, as it is drawn.</summary>
internal enum WorkState { None, ToDo, Measure, Stays, Done }
