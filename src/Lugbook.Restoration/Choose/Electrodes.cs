using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Chassis;

namespace Lugbook.Restoration.Choose;

/// <summary>What an electrode does, whatever letters a handbook gives it.</summary>
internal enum Electrode { Plate, ControlGrid, Screen, Suppressor, Cathode, Heater, DiodePlate }

/// <summary>An electrode on a lug.</summary>
/// <param name="Valve">Name of the valve and of its socket.</param>
/// <param name="Type">Its type as marked, or null.</param>
/// <param name="Unit">0, or the section of a double valve.</param>
/// <param name="Electrode">What it does.</param>
/// <param name="Lug">The socket's lug.</param>
internal sealed record ElectrodePin(string Valve, string? Type, int Unit, Electrode Electrode, string Lug)
{
    public string Words => $"{Electrode switch
    {
        Electrode.Plate => "plate",
        Electrode.ControlGrid => "grid",
        Electrode.Screen => "screen",
        Electrode.Suppressor => "suppressor",
        Electrode.Cathode => "cathode",
        Electrode.Heater => "heater",
        _ => "diode plate",
    }} of {Valve} ({Lug})";
}

/// <summary>Finds electrodes: from the handbook's pinout where the map has it, else from what the lug says of itself.</summary>
internal static partial class Electrodes
{
    public static ImmutableArray<ElectrodePin> Of(MapResult map)
    {
        var pins = ImmutableArray.CreateBuilder<ElectrodePin>();
        var known = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var valve in map.Nodes.SelectMany(n => n.Pins).GroupBy(p => p.Valve.Name, StringComparer.OrdinalIgnoreCase))
        {
            var codes = valve.SelectMany(p => Split(p.Electrode)).ToHashSet(StringComparer.Ordinal);
            foreach (var pin in valve)
            {
                known.Add(pin.Lug);
                foreach (var code in Split(pin.Electrode))
                    if (Read(code, codes) is var (electrode, unit))
                        pins.Add(new(pin.Valve.Name, pin.Valve.Marked, unit, electrode, pin.Lug));
            }
        }
        foreach (var lug in map.Book.Lugs)
            if (!known.Contains(lug.Name) && map.Book.Mounts.Named(lug.Mount)?.Kind.IsSocket() == true && FromWords(lug.Function) is var (electrode, unit))
                pins.Add(new(lug.Mount, map.Book.Parts.Named(lug.Mount)?.Marked, unit, electrode, lug.Name));
        return pins.ToImmutable();
    }

    private static IEnumerable<string> Split(string codes) =>
        codes.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(c => c.ToLowerInvariant());

    // In a double triode g2 is the second grid of its kind; in a pentode it is the screen. What else the valve has tells which.
    private static (Electrode, int)? Read(string code, HashSet<string> all)
    {
        var isDouble = all.Contains("p1") && all.Contains("p2") || all.Contains("pt1");
        var unit = isDouble && char.IsAsciiDigit(code[^1]) ? code[^1] - '0' : 0;
        return code switch
        {
            "g2g4" => (Electrode.Screen, 0),
            "g2" when !isDouble => (Electrode.Screen, 0),
            "g3" => (all.Contains("g2g4") ? Electrode.ControlGrid : Electrode.Suppressor, 0),
            "g4" or "g5" or "bp" or "is" or "ic" or "nc" or "shell" or "jumper" => null,
            "g" or "g1" or "g2" or "gt" or "gt1" or "gt2" => (Electrode.ControlGrid, unit),
            "d1" or "d2" or "d3" or "d" => (Electrode.DiodePlate, 0),
            _ when code.StartsWith('p') => (Electrode.Plate, unit),
            _ when code.StartsWith('k') => (Electrode.Cathode, unit),
            _ when code.StartsWith('h') || code.StartsWith('f') => (Electrode.Heater, 0),
            _ => null,
        };
    }

    private static (Electrode, int)? FromWords(string? function)
    {
        if (function is null) return null;
        var words = function.Split('(')[0].ToLowerInvariant();
        var unit = UnitNumber().Match(words) is { Success: true } m ? int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) : 0;
        Electrode? electrode =
            words.Contains("no connection", StringComparison.Ordinal) ? null
            : words.Contains("cathode", StringComparison.Ordinal) ? Electrode.Cathode
            : words.Contains("heater", StringComparison.Ordinal) || words.Contains("filament", StringComparison.Ordinal) ? Electrode.Heater
            : words.Contains("diode", StringComparison.Ordinal) ? Electrode.DiodePlate
            : words.Contains("plate", StringComparison.Ordinal) || words.Contains("anode", StringComparison.Ordinal) ? Electrode.Plate
            : words.Contains("screen", StringComparison.Ordinal) || GridTwo().IsMatch(words) && unit == 0 ? Electrode.Screen
            : words.Contains("suppressor", StringComparison.Ordinal) || words.Contains("grid 4", StringComparison.Ordinal) || words.Contains("grid 5", StringComparison.Ordinal) ? null
            : words.Contains("grid 3", StringComparison.Ordinal) ? (function.Contains("signal", StringComparison.OrdinalIgnoreCase) ? Electrode.ControlGrid : Electrode.Suppressor)
            : words.Contains("grid", StringComparison.Ordinal) ? Electrode.ControlGrid
            : null;
        return electrode is { } e ? (e, unit) : null;
    }

    [GeneratedRegex(@"unit\s*(\d)")]
    private static partial Regex UnitNumber();

    [GeneratedRegex(@"grids?\s*2")]
    private static partial Regex GridTwo();
}
