using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Says what each number without a unit is: the value, volts, watts, or a lug of the last mount.</summary>
internal static class BareNumbers
{
    // Common practice, no source: working voltages that were marked, and powers.
    private static readonly double[] Volts = [3, 6, 10, 12, 15, 16, 20, 25, 30, 35, 40, 50, 60, 63, 70, 75, 80, 100, 120, 125, 150, 160, 175, 200, 220, 250, 300, 350, 375, 385, 400, 450, 475, 500, 525, 550, 600, 630, 700, 750, 800, 1000, 1200, 1250, 1500, 1600, 2000, 2500, 3000, 4000, 5000, 6000, 10000];
    private static readonly double[] Watts = [0.125, 0.2, 0.25, 0.3333333333333333, 0.5, 1, 2, 3, 4, 5, 7, 8, 10, 15, 20, 25, 50];

    /// <summary>Sorts the note's bare numbers; what is left over becomes leads or a complaint.</summary>
    /// <param name="note">The note; its value, ratings and leads are filled in.</param>
    /// <param name="lugs">Which lugs there are.</param>
    /// <param name="kind">The kind, as far as it is known.</param>
    /// <param name="valueKnown">The part takes its value from another.</param>
    /// <param name="inBook">The book has the part and its value: lone numbers are rather lugs.</param>
    /// <param name="leadsWanted">How many leads are still to be placed.</param>
    public static void Sort(BenchNote note, LugNames lugs, PartKind? kind, bool valueKnown, bool inBook, int leadsWanted)
    {
        SortJoined(note, kind, valueKnown);
        var own = kind == PartKind.Control ? note.Reference : null;
        var left = note.Bare.Select(b => b with { Mount = own ?? b.Mount ?? note.LastMount }).ToList();
        note.Bare.Clear();
        leadsWanted = Math.Max(0, leadsWanted - note.Leads.Count);
        var hinted = left.Where(b => b.LugHint && b.IsCount).ToList();
        left.RemoveAll(hinted.Contains);
        var wanted = leadsWanted - hinted.Count;
        bool MayBeLug(BareNumber b) => lugs.CanBeOn(b.Mount, b);

        var hasValue = valueKnown || note.Values.Count > 0 || note.Colours.Count > 0 || (note.ValueIsOpen && left.All(b => b.Number >= 1));
        var takesValue = kind is null || PartKinds.UnitOf(kind.Value) is not null;
        if (!hasValue && takesValue && left.Count > 0 && !(wanted > 0 && left.Count <= wanted && (left.Count == wanted || inBook) && left.All(b => MayBeLug(b) && b.Mount is not null) && (left.Count > 1 || inBook)))
        {
            bool IsPower(BareNumber b) => b.Number < 1 && left.Count > 1 && kind is PartKind.Resistor or PartKind.Control;
            // Of ".05 600" and "600 .05" the fraction is the capacitance, of "20 450" the first is; of "3 5 470" the one that is no lug is the resistance.
            var value = left.FirstOrDefault(b => b.Number != Math.Floor(b.Number) && !IsPower(b))
                ?? (kind is { } c && c.IsCapacitor() ? left[0] : left.FirstOrDefault(b => !MayBeLug(b) && !IsPower(b)) ?? left[0]);
            left.Remove(value);
            note.Values.Add(new(value.Text.Contains('/', StringComparison.Ordinal) ? ValueText.Number(value.Number) : value.Text, UnitWord.None, value.Number, value.At, value.End));
            note.Marking.Add((value.At, value.End));
        }
        var isCapacitor = kind is { } k && k.IsCapacitor() || (kind is null && note.Values.Count > 0 && (note.Values[0].Unit.IsCapacitance() || note.Values[0].Number < 1));
        if (isCapacitor && note.Volts is null && note.SectionVolts is null
            && left.FirstOrDefault(b => Volts.Contains(b.Number) && (!MayBeLug(b) || b.Mount is null || left.Count > Math.Max(wanted, 0))) is { } volts)
        {
            left.Remove(volts);
            note.Volts = new(volts.Number, volts.At, volts.End);
            note.Marking.Add((volts.At, volts.End));
        }
        if (!isCapacitor && kind is null or PartKind.Resistor or PartKind.Control && note.Watts is null
            && left.FirstOrDefault(b => Watts.Contains(b.Number) && (b.Number < 1 || b.Mount is null || left.Count > Math.Max(wanted, 0))) is { } watts)
        {
            left.Remove(watts);
            note.Watts = new(watts.Number, watts.At, watts.End);
            note.Marking.Add((watts.At, watts.End));
            note.Assumed.Add($"{watts.Text} is {ValueText.Number(watts.Number)} W");
        }
        if (note.Tolerance is null && left.Count > Math.Max(wanted, 0) && left.FirstOrDefault(b => b.Number is 1 or 2 or 5 or 10 or 20) is { } percent)
        {
            left.Remove(percent);
            note.Tolerance = new(Quantities.Tolerance.Percent(percent.Number), percent.At, percent.End);
            note.Marking.Add((percent.At, percent.End));
            note.Assumed.Add($"{percent.Text} is ±{percent.Text} %");
        }
        PlaceLugs(note, lugs, [.. hinted.Concat(left).OrderBy(b => b.At)], leadsWanted);
    }

    private static void PlaceLugs(BenchNote note, LugNames lugs, List<BareNumber> numbers, int wanted)
    {
        foreach (var bare in numbers)
        {
            if (!bare.IsCount || wanted-- <= 0)
                note.Complain(bare.At, $"{bare.Text} is one number too many", "Write units (400V, 2W, 10%), and lugs with their mount: V3-6.");
            else if (bare.Mount is null)
                note.Complain(bare.At, $"lug {bare.Text} of which mount?", $"Write the mount too: V3-{bare.Text}.");
            else
            {
                var (lug, mount, no) = lugs.On(bare.Mount, bare.Text.TrimStart('0'));
                note.Leads.Add(new(lug, mount, no, bare.At, bare.End));
                note.LastMount = mount;
            }
        }
        note.Leads.Sort((a, b) => a.At.CompareTo(b.At));
    }

    /// <summary>20/25 is 20 µF at 25 V; 20/20 and 40-20-20 are sections; 3-5 are two lugs.</summary>
    private static void SortJoined(BenchNote note, PartKind? kind, bool valueKnown)
    {
        foreach (var joined in note.Joined)
        {
            var (first, second) = (joined.Numbers[0], joined.Numbers[1]);
            var capacitor = joined.Unit.IsCapacitance() || (kind is { } k && k.IsCapacitor()) || (kind is null && first < 1);
            var numbers = joined.Numbers;
            if (capacitor && joined.Text.Contains('x', StringComparison.Ordinal) && numbers.Length == 2 && first is 2 or 3 or 4 && (second < 1 || joined.Unit.IsCapacitance() || note.Volts is not null))
                numbers = [.. Enumerable.Repeat(second, (int)first)];   // 3x.1 is three sections of .1
            else if (capacitor && numbers.Length > 2 && note.Volts is null && note.SectionVolts is null && Volts.Contains(numbers[^1]) && numbers[^1] >= 4 * numbers[..^1].Max())
            {
                note.Volts = new(numbers[^1], joined.At, joined.End);   // 40-40/350
                numbers = numbers[..^1];
            }
            if (note.Values.Count > 0 || valueKnown || !capacitor) NotAValue(note, joined, kind, valueKnown || note.Values.Count > 0);
            else if (numbers == joined.Numbers && numbers.Length == 2 && joined.Unit is UnitWord.None or UnitWord.Volt && note.Volts is null && second > first && Volts.Contains(second))
            {
                note.Values.Add(new(ValueText.Number(first), UnitWord.None, first, joined.At, joined.At + joined.Text.IndexOfAny(['-', '/', 'x', '@', '+'])));
                note.Volts = new(second, joined.At, joined.End);
                note.Marking.Add((joined.At, joined.End));
            }
            else
            {
                var sections = string.Join('-', numbers.Select(ValueText.Number));
                note.Values.Add(new(joined.Unit == UnitWord.Pico ? sections + " MMF" : sections + " MFD", joined.Unit == UnitWord.None ? UnitWord.Micro : joined.Unit, null, joined.At, joined.End));
                note.Marking.Add((joined.At, joined.End));
            }
        }
        note.Joined.Clear();
    }

    private static void NotAValue(BenchNote note, JoinedNumbers joined, PartKind? kind, bool hasValue)
    {
        // 1/2 on a resistor is half a watt; 1/4 MEG was read before as a fraction.
        if (joined.Unit == UnitWord.Volt && hasValue) note.SectionVolts = string.Join('-', joined.Numbers.Select(ValueText.Number));
        else if (joined.Unit == UnitWord.Volt && note.Volts is null) note.Volts = new(joined.Numbers.Max(), joined.At, joined.End);   // a 6-8 V lamp
        else if (joined.Unit != UnitWord.None) note.Complain(joined.At, $"'{joined.Text}' is more than one value", kind == PartKind.Resistor ? "Write one value to a resistor." : "Write one value to a part.");
        else
            foreach (var number in joined.Numbers)
                note.Bare.Add(new(number, ValueText.Number(number), joined.Mount, true, joined.At, joined.End));
    }
}
