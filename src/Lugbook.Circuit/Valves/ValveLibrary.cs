using System.Collections.Concurrent;
using System.Collections.Immutable;
using Lugbook.Circuit.Elements;

namespace Lugbook.Circuit.Valves;

/// <summary>Laws of all types whose data are known; fitted when first asked for and kept. Safe to use from several threads; the same texts, the same laws.</summary>
public sealed class ValveLibrary
{
    /// <summary>Lines of one type and section.</summary>
    internal sealed record Group(string Type, string Section, ValveClass Class, ImmutableArray<HandbookLine> Lines);

    private readonly ImmutableDictionary<string, Tube> _tubes;
    private readonly ImmutableDictionary<string, string> _aliases;
    private readonly ImmutableDictionary<string, (DiodeLaw Law, int Plates)> _rectifiers;
    private readonly TypeNames _names;
    private readonly ImmutableArray<(string, string, string)> _twins;
    private readonly ImmutableArray<(string Type, double Spread, string Source)> _spreads;
    private ValveLibrary? _base;
    private readonly ConcurrentDictionary<(string, string), Lazy<FittedLaw>> _first = new(), _final = new();

    private ValveLibrary(
        ImmutableArray<Group> groups, ImmutableDictionary<string, Tube> tubes, ImmutableDictionary<string, string> aliases,
        ImmutableDictionary<string, (DiodeLaw, int)> rectifiers, ImmutableArray<(string, string, string)> twins, ImmutableArray<(string, double, string)> spreads, ImmutableArray<LineFault> faults)
    {
        (Groups, _tubes, _aliases, _rectifiers, _twins, _spreads, Faults) = (groups, tubes, aliases, rectifiers, twins, spreads, faults);
        Types = [.. groups.Select(g => g.Type).Concat(tubes.Keys).Concat(rectifiers.Keys).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal)];
        _names = new(Types, aliases, twins, tubes.Values.Where(t => t.PointsUnder.Length > 0).ToDictionary(t => t.Type, t => t.PointsUnder, StringComparer.OrdinalIgnoreCase));
    }

    /// <summary>All types, in alphabetical order.</summary>
    public ImmutableArray<string> Types { get; }
    /// <summary>What in the texts could not be read.</summary>
    public ImmutableArray<LineFault> Faults { get; }
    internal ImmutableArray<Group> Groups { get; }

    /// <summary>Makes a library from the texts of its files; pure, and quick because nothing is fitted yet.</summary>
    public static ValveLibrary Of(ValveTexts texts)
    {
        ArgumentNullException.ThrowIfNull(texts);
        var faults = new List<LineFault>();
        var tubes = ImmutableDictionary.CreateBuilder<string, Tube>(StringComparer.OrdinalIgnoreCase);
        var aliases = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var tube in Tube.Read(texts.Tubes, faults))
        {
            if (!tubes.TryAdd(tube.Type, tube)) continue;
            foreach (var name in tube.Equivalents) aliases.TryAdd(name, tube.Type);
        }
        var lines = new List<HandbookLine>();
        foreach (var text in texts.Points)
        {
            var reading = HandbookLines.Parse(text);
            faults.AddRange(reading.Faults);
            lines.AddRange(reading.Lines);
        }
        var groups = lines
            .GroupBy(l => (Type: l.Type.ToUpperInvariant(), l.Section))
            .Select(g =>
            {
                ImmutableArray<HandbookLine> own = [.. g];
                var type = own[0].Type;
                return new Group(type, g.Key.Section, Tube.ClassOf(tubes.GetValueOrDefault(type), own), own);
            });
        return new([.. groups], tubes.ToImmutable(), aliases.ToImmutable(), Rectifiers(texts.Rectifiers, faults), Twins(texts.Twins, faults), Spreads(texts.Spread, faults), [.. faults]);
    }

    /// <summary>This library with further lines and types: a book's own. What a type learns its expectations from stays this library's; its fits are shared.</summary>
    /// <param name="points">Lines as <see cref="HandbookLines.Parse"/> reads them; those of a known type are added to its own.</param>
    /// <param name="tubes">Types with the columns type, equivalents, class, max_plate_w, notes, points_under; they come before those of the same name.</param>
    /// <returns>The library; its <see cref="Faults"/> are of these two texts only.</returns>
    public ValveLibrary With(string points, string tubes)
    {
        var faults = new List<LineFault>();
        var (allTubes, aliases) = (_tubes, _aliases);
        foreach (var tube in Tube.Read(tubes, faults))
        {
            allTubes = allTubes.SetItem(tube.Type, tube);
            foreach (var name in tube.Equivalents) aliases = aliases.SetItem(name, tube.Type);
        }
        var reading = HandbookLines.Parse(points);
        faults.AddRange(reading.Faults);
        var groups = Groups.ToList();
        foreach (var own in reading.Lines.GroupBy(l => (Type: l.Type.ToUpperInvariant(), l.Section)))
        {
            var at = groups.FindIndex(g => Same(g.Type, own.Key.Type) && g.Section == own.Key.Section);
            ImmutableArray<HandbookLine> lines = [.. at < 0 ? [] : groups[at].Lines, .. own];
            var type = at < 0 ? lines[0].Type : groups[at].Type;
            Group group = new(type, own.Key.Section, Tube.ClassOf(allTubes.GetValueOrDefault(type), lines), lines);
            if (at < 0) groups.Add(group);
            else groups[at] = group;
        }
        return new([.. groups], allTubes, aliases, _rectifiers, _twins, _spreads, [.. faults]) { _base = this };
    }

    /// <summary>
    /// A type by its name, an equivalent's, another envelope's or edition's ("6SK7GT"), a listed twin's or another heater's ("3CB6"); case, blanks and dashes
    /// do not matter, and of "12AX7/ECC83" the first that is known counts. Null when nothing is known of it.
    /// </summary>
    public FittedValve? Find(string type)
    {
        ArgumentNullException.ThrowIfNull(type);
        if (_names.Find(type) is not { } found) return null;
        var known = found.Data;
        var tube = _tubes.GetValueOrDefault(known);
        var data = tube is { PointsUnder.Length: > 0 } && !Groups.Any(g => Same(g.Type, known)) ? tube.PointsUnder : known;
        var why = found.Why.Length == 0 ? "" : $" ({found.Why})";
        var sections = new List<ValveSection>();
        foreach (var group in Groups.Where(g => Same(g.Type, data)))
        {
            var fit = Law(group);
            var origin = $"{group.Lines.Length} handbook line{(group.Lines.Length == 1 ? "" : "s")} of {group.Type}{why}";
            if (group.Section.Length > 0) sections.Add(new(group.Section, fit, null, origin));
            else if (tube?.Class.StartsWith("twin", StringComparison.OrdinalIgnoreCase) == true) sections.AddRange([new("1", fit, null, origin), new("2", fit, null, origin)]);
            else sections.Add(new("", fit, null, origin));
        }
        if (_rectifiers.TryGetValue(data, out var diode))
        {
            var origin = $"rectifier drop of {data}{why}";
            if (diode.Plates == 2) sections.AddRange([new("1", null, diode.Law, origin), new("2", null, diode.Law, origin)]);
            else sections.Add(new("", null, diode.Law, origin));
        }
        if (tube?.Class.StartsWith("duodiode", StringComparison.OrdinalIgnoreCase) == true)
        {
            const string origin = "small signal diodes in general: common practice, no source";
            sections.AddRange([new("d1", null, DiodeLaw.SignalPlate(), origin), new("d2", null, DiodeLaw.SignalPlate(), origin)]);
        }
        var (spread, source) = SpreadOf(tube?.Type ?? known, data);
        return new(tube?.Type ?? known, data, [.. sections], spread, source) { Why = found.Why };
    }

    /// <summary>Expectations for a group, learned from the other types of its class.</summary>
    internal ClassPriors PriorsFor(Group group) => _base is not null ? _base.PriorsFor(group) :
        ClassPriors.Learn(Groups.Where(g => g.Class == group.Class && g.Lines.Length >= 2 && !Same(g.Type, group.Type)).AsParallel().AsOrdered().Select(First));

    internal FittedLaw Law(Group group) => _base is not null && _base.Groups.Contains(group) ? _base.Law(group) :
        _final.GetOrAdd((group.Type, group.Section), _ => new(() => ValveFit.Of(group.Lines, group.Class, PriorsFor(group)))).Value;

    private FittedLaw First(Group group) =>
        _first.GetOrAdd((group.Type, group.Section), _ => new(() => ValveFit.Of(group.Lines, group.Class, ClassPriors.Physical))).Value;

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private static ImmutableDictionary<string, (DiodeLaw, int)> Rectifiers(string text, List<LineFault> faults)
    {
        var laws = ImmutableDictionary.CreateBuilder<string, (DiodeLaw, int)>(StringComparer.OrdinalIgnoreCase);
        var table = Table.Of(text, "type", "drop_v", "drop_ma");
        foreach (var row in table.Rows)
        {
            var volts = row.Number("drop_v", 0.15, 1000, leastBelongs: false);
            var milliamperes = row.Number("drop_ma", 0, 1e5, leastBelongs: false);
            var plates = row.Text("circuit").StartsWith("half", StringComparison.OrdinalIgnoreCase) ? 1 : 2;
            if (volts is { } v && milliamperes is { } ma && row.Text("type").Length > 0) laws.TryAdd(row.Text("type"), (DiodeLaw.Vacuum(v, ma * 1e-3), plates));
        }
        faults.AddRange(table.Faults);
        return laws.ToImmutable();
    }

    private static ImmutableArray<(string, string, string)> Twins(string text, List<LineFault> faults)
    {
        if (text.Length == 0) return [];
        var table = Table.Of(text, "type", "same_as", "why");
        faults.AddRange(table.Faults);
        return [.. table.Rows.Where(r => r.Text("type").Length > 0 && r.Text("same_as").Length > 0).Select(r => (r.Text("type"), r.Text("same_as"), r.Text("why")))];
    }

    private static ImmutableArray<(string, double, string)> Spreads(string text, List<LineFault> faults)
    {
        var spreads = ImmutableArray.CreateBuilder<(string, double, string)>();
        var table = Table.Of(text, "type", "quantity", "nominal", "low", "high");
        foreach (var row in table.Rows)
        {
            // A plate current in a circuit that holds it says nothing of the valve.
            var quantity = row.Text("quantity");
            var held = row.Text("notes").Contains("cathode resistor", StringComparison.OrdinalIgnoreCase);
            var ofCurrent = quantity.StartsWith("gm", StringComparison.Ordinal) || quantity.StartsWith("data-sheet values", StringComparison.Ordinal) || (quantity.StartsWith("plate current", StringComparison.Ordinal) && !held);
            if (!ofCurrent || row.Number("nominal", 0, leastBelongs: false) is not { } nominal || row.Number("low", 0) is not { } low || row.Number("high", 0) is not { } high) continue;
            spreads.Add((row.Text("type").Split('(')[0].Trim(), 0.5 * (high - low) / nominal, row.Text("source")));
        }
        faults.AddRange(table.Faults);
        return spreads.ToImmutable();
    }

    internal (double, string) SpreadOf(string type, string data)
    {
        var own = _spreads.Where(s => Same(s.Type, type) || Same(s.Type, data) || (_aliases.TryGetValue(s.Type, out var of) && Same(of, data))).ToArray();
        var rows = own.Length > 0 ? own : [.. _spreads.Where(s => s.Type.StartsWith("any", StringComparison.OrdinalIgnoreCase))];
        if (rows.Length == 0) return (0.3, "common practice, no source");
        var widest = rows.MaxBy(s => s.Spread);
        return (widest.Spread, widest.Source);
    }
}
