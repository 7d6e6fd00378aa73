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
    private readonly ImmutableDictionary<string, DiodeLaw> _rectifiers;
    private readonly ImmutableArray<(string Type, double Spread, string Source)> _spreads;
    private readonly ConcurrentDictionary<(string, string), Lazy<FittedLaw>> _first = new(), _final = new();

    private ValveLibrary(
        ImmutableArray<Group> groups, ImmutableDictionary<string, Tube> tubes, ImmutableDictionary<string, string> aliases,
        ImmutableDictionary<string, DiodeLaw> rectifiers, ImmutableArray<(string, double, string)> spreads, ImmutableArray<LineFault> faults)
    {
        (Groups, _tubes, _aliases, _rectifiers, _spreads, Faults) = (groups, tubes, aliases, rectifiers, spreads, faults);
        Types = [.. groups.Select(g => g.Type).Concat(tubes.Keys).Concat(rectifiers.Keys).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal)];
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
        return new([.. groups], tubes.ToImmutable(), aliases.ToImmutable(), Rectifiers(texts.Rectifiers, faults), Spreads(texts.Spread, faults), [.. faults]);
    }

    /// <summary>A type by its name or an equivalent's, upper or lower case; null when nothing is known of it.</summary>
    public FittedValve? Find(string type)
    {
        ArgumentNullException.ThrowIfNull(type);
        var name = type.Trim();
        var known = _tubes.ContainsKey(name) || _rectifiers.ContainsKey(name) || Groups.Any(g => Same(g.Type, name)) ? name : _aliases.GetValueOrDefault(name);
        if (known is null) return null;
        var tube = _tubes.GetValueOrDefault(known);
        var data = tube is { PointsUnder.Length: > 0 } && !Groups.Any(g => Same(g.Type, known)) ? tube.PointsUnder : known;
        var sections = new List<ValveSection>();
        foreach (var group in Groups.Where(g => Same(g.Type, data)))
        {
            var fit = Law(group);
            var origin = $"{group.Lines.Length} handbook line{(group.Lines.Length == 1 ? "" : "s")} of {group.Type}";
            if (group.Section.Length > 0) sections.Add(new(group.Section, fit, null, origin));
            else if (tube?.Class.StartsWith("twin", StringComparison.OrdinalIgnoreCase) == true) sections.AddRange([new("1", fit, null, origin), new("2", fit, null, origin)]);
            else sections.Add(new("", fit, null, origin));
        }
        if (_rectifiers.TryGetValue(data, out var diode))
        {
            var full = tube?.Class is not "damper" && (tube?.Notes.Contains("half wave", StringComparison.OrdinalIgnoreCase) != true);
            var origin = $"rectifier drop of {data}";
            if (full) sections.AddRange([new("1", null, diode, origin), new("2", null, diode, origin)]);
            else sections.Add(new("", null, diode, origin));
        }
        if (tube?.Class.StartsWith("duodiode", StringComparison.OrdinalIgnoreCase) == true)
        {
            const string origin = "small signal diodes in general: common practice, no source";
            sections.AddRange([new("d1", null, DiodeLaw.SignalPlate(), origin), new("d2", null, DiodeLaw.SignalPlate(), origin)]);
        }
        var (spread, source) = SpreadOf(tube?.Type ?? known, data);
        return new(tube?.Type ?? known, data, [.. sections], spread, source);
    }

    /// <summary>Expectations for a group, learned from the other types of its class.</summary>
    internal ClassPriors PriorsFor(Group group) =>
        ClassPriors.Learn(Groups.Where(g => g.Class == group.Class && g.Lines.Length >= 2 && !Same(g.Type, group.Type)).Select(First));

    internal FittedLaw Law(Group group) =>
        _final.GetOrAdd((group.Type, group.Section), _ => new(() => ValveFit.Of(group.Lines, group.Class, PriorsFor(group)))).Value;

    private FittedLaw First(Group group) =>
        _first.GetOrAdd((group.Type, group.Section), _ => new(() => ValveFit.Of(group.Lines, group.Class, ClassPriors.Physical))).Value;

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private static ImmutableDictionary<string, DiodeLaw> Rectifiers(string text, List<LineFault> faults)
    {
        var laws = ImmutableDictionary.CreateBuilder<string, DiodeLaw>(StringComparer.OrdinalIgnoreCase);
        var table = Table.Of(text, "type", "drop_v", "drop_ma");
        foreach (var row in table.Rows)
        {
            var volts = row.Number("drop_v", 0.15, 1000, leastBelongs: false);
            var milliamperes = row.Number("drop_ma", 0, 1e5, leastBelongs: false);
            if (volts is { } v && milliamperes is { } ma && row.Text("type").Length > 0) laws.TryAdd(row.Text("type"), DiodeLaw.Vacuum(v, ma * 1e-3));
        }
        faults.AddRange(table.Faults);
        return laws.ToImmutable();
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
