using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Order.Lists;

/// <summary>Reads what a line of a list says of a part: columns where they are given, else the description, by the reader of markings.</summary>
internal static partial class ListedPart
{
    private const int MostTries = 6;

    /// <summary>The part; or which column is wrong, how, and what to do.</summary>
    public static (ChosenPart? Part, ListColumn Column, string Problem, string Remedy) Read(Func<ListColumn, string?> cell)
    {
        (ChosenPart?, ListColumn, string, string) Wrong(ListColumn column, string problem, string remedy) => (null, column, problem, remedy);
        var description = cell(ListColumn.Description);
        var words = $"{cell(ListColumn.Kind)} {description}";
        var safety = KindText.ClassIn($"{cell(ListColumn.Class)} {words}");
        if (KindText.Of(words, safety) is not { } kind)
            return Wrong(cell(ListColumn.Kind) is null && description is not null ? ListColumn.Description : ListColumn.Kind, "what kind of part this is, cannot be told", "Write film, polypropylene, electrolytic, C0G, mica, ceramic, metal film, carbon film, metal oxide or wirewound; for the line the class, such as X2.");
        var unit = KindText.UnitOf(kind);
        var described = Described(description, unit);

        double value;
        if (cell(ListColumn.Value) is { } written)
        {
            var text = cell(ListColumn.Unit) is { } given && !written.Any(char.IsLetter) ? $"{written} {given}" : written;
            if (unit == Unit.Farad && !text.Any(char.IsLetter)) return Wrong(ListColumn.Value, "the unit is missing", "Write 22 nF, or give a column unit.");
            if (!Notation.TryParse(text, unit, out value, out var complaint)) return Wrong(ListColumn.Value, complaint!.Problem, complaint.Remedy);
        }
        else if (described is { } m) value = m.Value;
        else return Wrong(description is null ? ListColumn.Value : ListColumn.Description, "no value can be read here", "Write it with its unit, such as 22 nF or 470 kΩ, or give a column value.");
        if (!(value > 0) || unit == Unit.Farad && value > 1 || unit == Unit.Ohm && value > 1e12) return Wrong(ListColumn.Value, "no part has this value", "Check the unit.");

        var (volts, lineVolts) = (Number(cell(ListColumn.Volts), Unit.Volt, out var voltsWrong), Number(cell(ListColumn.LineVolts), Unit.Volt, out var lineWrong));
        if (voltsWrong) return Wrong(ListColumn.Volts, "this is no voltage", "Write 630 V.");
        if (lineWrong) return Wrong(ListColumn.LineVolts, "this is no voltage", "Write 275 V.");
        var saysAc = cell(ListColumn.Volts) is { } v && Ac().IsMatch(v);
        if (volts is not null && saysAc) (volts, lineVolts) = (null, lineVolts ?? volts);
        // A description may give both: "305VAC 630VDC".
        lineVolts ??= Rating(description, AcVolts());
        volts ??= Rating(description, DcVolts());
        if (described is { RatedVolts: { } marked } d)
        {
            // The rated voltage of a class is AC rms (IEC 60384-14); a figure that says DC is not that one.
            if (d.VoltsAreAc && !Dc().IsMatch(description!)) lineVolts ??= marked;
            else volts ??= marked;
        }
        if (safety != SafetyClass.None && lineVolts is null)
            return Wrong(ListColumn.LineVolts, $"the line voltage of this class {safety} part is not stated", "Write it as 275 V AC; a DC figure does not tell it.");
        var watts = Number(cell(ListColumn.Watts), Unit.Watt, out var wattsWrong) ?? described?.RatedWatts;
        if (wattsWrong) return Wrong(ListColumn.Watts, "this is no power", "Write 1/2 W or 0.6.");
        if (unit == Unit.Ohm && watts is null) return Wrong(ListColumn.Watts, "the power of this resistor is not stated", "Write 1/2 W or 0.6.");
        if (unit == Unit.Farad && safety == SafetyClass.None && volts is null) return Wrong(ListColumn.Volts, "the rated voltage is not stated", "Write 630 V.");
        double? tolerance = described?.Tolerance is { } t ? Math.Max(t.Minus, t.Plus) * 100 : null;
        if (cell(ListColumn.Tolerance) is { } width)
        {
            if (!double.TryParse(width.Trim('±', '%', ' ', '+', '-', '/').Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var percent) || percent is <= 0 or > 100)
                return Wrong(ListColumn.Tolerance, "this is no tolerance", "Write it in per cent: 5.");
            tolerance = percent;
        }
        var celsius = Celsius(cell(ListColumn.Celsius), kind == NewKind.Electrolytic ? description : null);
        if (cell(ListColumn.Celsius) is not null && celsius is null or < 40 or > 500) return Wrong(ListColumn.Celsius, "this is no temperature", "Write the highest one in degrees Celsius: 105.");
        if (Ripple(cell(ListColumn.Ripple), out var ripple, out var rippleHertz)) return Wrong(ListColumn.Ripple, "this is no ripple current", "Write it in mA, such as 320, or 320 mA at 120 Hz.");
        var part = new ChosenPart
        {
            Text = "", Series = description ?? "", Kind = kind, Unit = unit, Value = value, Volts = volts, LineVolts = lineVolts,
            Watts = unit == Unit.Ohm ? watts : null, SafetyClass = safety, TolerancePercent = tolerance, Celsius = celsius,
            RippleAmperes = kind == NewKind.Electrolytic ? ripple : null, RippleHertz = kind == NewKind.Electrolytic ? rippleHertz : null,
        };
        return (part with { Text = Words(part) }, default, "", "");
    }

    /// <summary>The part in words: "22 nF 630 V film 10 %".</summary>
    public static string Words(ChosenPart part)
    {
        var words = new List<string> { Show.Value(part.Value, part.Unit) };
        if (part.SafetyClass != SafetyClass.None) words.Add($"class {part.SafetyClass} {Show.Number(part.LineVolts ?? 0)} V AC");
        if (part.Watts is { } watts) words.Add($"{Show.Number(watts)} W");
        if (part.Unit == Unit.Farad && part.SafetyClass == SafetyClass.None && part.Volts is { } volts) words.Add(Show.Volts(volts));
        if (part.SafetyClass == SafetyClass.None) words.Add(Show.Kind(part.Kind));
        if (part.Kind == NewKind.Electrolytic && part.Celsius is { } celsius) words.Add($"{Show.Number(celsius)} °C");
        if (part.TolerancePercent is { } t && part.SafetyClass == SafetyClass.None) words.Add($"{Show.Number(t)} %");
        return string.Join(' ', words);
    }

    // Only words with a figure say anything of value and rating; one that the reader does not know is left out and it reads again.
    private static Meaning? Described(string? description, Unit unit)
    {
        // A bare figure is not taken for a value.
        if (description is null || !(unit == Unit.Farad ? Farads() : Ohms()).IsMatch(description)) return null;
        var tokens = Apart().Replace(Size().Replace(Temperature().Replace(description, " "), " "), " ")
            .Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(t => t.Trim(',', ';', ':', '.')).Where(t => t.Length > 0 && (t.Any(char.IsAsciiDigit) || UnitWord().IsMatch(t))).Take(12).ToList();
        var context = new MarkingContext { Kind = unit == Unit.Ohm ? PartKind.Resistor : PartKind.Capacitor };
        for (var i = 0; i < MostTries && tokens.Count > 0; i++)
        {
            var text = string.Join(' ', tokens);
            var read = TextMarking.Read(text, context);
            if (read.Complaint is null) return read.Meanings.FirstOrDefault(m => m.Unit == unit) is { Sections.Length: 1, Share: > 0.5 } meaning ? meaning : null;
            var (at, gone) = (0, tokens.Count - 1);
            for (var k = 0; k < tokens.Count; at += tokens[k].Length + 1, k++)
                if (read.Complaint.At < at + tokens[k].Length + 1) { gone = k; break; }
            tokens.RemoveAt(gone);
        }
        return null;
    }

    private static double? Number(string? text, Unit unit, out bool wrong)
    {
        wrong = false;
        if (text is null) return null;
        var bare = Kind().Replace(text, "");
        wrong = !Notation.TryParse(bare, unit, out var number, out _) || number <= 0 || number > 1e6;
        return wrong ? null : number;
    }

    private static double? Rating(string? description, Regex rating) =>
        description is not null && rating.Match(description) is { Success: true } m && Notation.TryParse(m.Groups[1].Value, Unit.Volt, out var volts, out _) && volts is > 0 and < 1e6 ? volts : null;

    private static double? Celsius(string? cell, string? description)
    {
        var match = Temperature().Match(cell is null ? description ?? "" : cell.Contains('C', StringComparison.OrdinalIgnoreCase) ? cell : cell + " °C");
        return match.Success ? double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) : null;
    }

    // "320", "320 mA", "0.32 A at 100 kHz": true when something is there and it is none.
    private static bool Ripple(string? text, out double? amperes, out double? hertz)
    {
        (amperes, hertz) = (null, null);
        if (text is null) return false;
        if (RippleCurrent().Match(text) is not { Success: true } m || !double.TryParse(m.Groups["i"].Value.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var current) || current is <= 0 or > 1e5) return true;
        amperes = m.Groups["u"].Value is "A" ? current : current / 1000;
        if (m.Groups["f"].Success) hertz = double.Parse(m.Groups["f"].Value, CultureInfo.InvariantCulture) * (m.Groups["k"].Success ? 1000 : 1);
        return amperes > 100;
    }

    [GeneratedRegex(@"^\s*(?<i>\d{1,6}(?:[.,]\d{1,4})?)\s*(?<u>mA|A)?(?:\s*rms)?(?:\s*(?:at|@|/|bei)?\s*(?<f>\d{2,6})\s*(?<k>k)?Hz)?\s*$")]
    private static partial Regex RippleCurrent();
    [GeneratedRegex(@"(?<![\d.,])(\d{2,3})\s*(?:°\s*C|º\s*C|degC|deg C|℃|C(?![A-Za-z0-9]))")]
    private static partial Regex Temperature();
    [GeneratedRegex(@"\b(?:RM|LS|P|pitch|raster|Ø|D)\s*=?\s*\d+(?:[.,]\d+)?\s*(?:mm)?\b|\d+(?:[.,]\d+)?\s*(?:mm)?\s*[xX×]\s*\d+(?:[.,]\d+)?(?:\s*[xX×]\s*\d+(?:[.,]\d+)?)?\s*(?:mm)?|\b\d+(?:[.,]\d+)?\s*(?:mm|pcs|ppm(?:/K)?|h|hours|Hz|Stk|Stück)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Size();
    [GeneratedRegex(@"[()\[\]/](?!\d)|(?<!\d)/|\s+|,(?=\s)|;")]
    private static partial Regex Apart();
    [GeneratedRegex(@"^(?:[pnuµμ]?F|[kM]?(?:ohms?|Ω)|V|VDC|VAC|V~|W|Watt|AC|DC|MFD|MMFD|%|±)$", RegexOptions.IgnoreCase)]
    private static partial Regex UnitWord();
    [GeneratedRegex(@"AC|~", RegexOptions.IgnoreCase)]
    private static partial Regex Ac();
    [GeneratedRegex(@"(\d[\d.,]*)\s*V\s*(?:AC|~)", RegexOptions.IgnoreCase)]
    private static partial Regex AcVolts();
    [GeneratedRegex(@"(\d[\d.,]*)\s*V\s*(?:DC|=)", RegexOptions.IgnoreCase)]
    private static partial Regex DcVolts();
    [GeneratedRegex(@"DC|=", RegexOptions.IgnoreCase)]
    private static partial Regex Dc();
    [GeneratedRegex(@"\d\s*(?:[pnuµμ]\d*F?|m?mfd|F)(?![A-Za-z])", RegexOptions.IgnoreCase)]
    private static partial Regex Farads();
    [GeneratedRegex(@"\d\s*(?:[kM]?(?:ohms?|Ω)|[RkKM]\d*|MEG)(?![A-Za-z])")]
    private static partial Regex Ohms();
    [GeneratedRegex(@"\s*(?:DC|AC|=|~|rms)\s*", RegexOptions.IgnoreCase)]
    private static partial Regex Kind();
}
