using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Lugbook.Trade.Valves;

/// <summary>Reads the trade's electrode letters and the words on a socket.</summary>
public static partial class Electrodes
{
    /// <summary>What these letters mean in a valve of this class; null when they are not known.</summary>
    /// <param name="letters">One pin's letters without commas: "g2g4", "gt1", "k".</param>
    /// <param name="valveClass">Class of the handbook line: in a twin triode g2 is the grid of section 2, elsewhere the screen.</param>
    public static Electrode? Of(string letters, string valveClass)
    {
        var text = letters.Trim().ToLowerInvariant();
        ElectrodeKind? word = text switch
        {
            "h" => ElectrodeKind.Heater,
            "hct" or "htap" => ElectrodeKind.HeaterTap,
            "f" => ElectrodeKind.Filament,
            "fct" or "ftap" => ElectrodeKind.HeaterTap,
            "bp" => ElectrodeKind.BeamPlates,
            "is" => ElectrodeKind.Shield,
            "shell" => ElectrodeKind.Shell,
            "nc" => ElectrodeKind.NoConnection,
            "ic" => ElectrodeKind.Internal,
            "jumper" => ElectrodeKind.Jumper,
            "ga" => ElectrodeKind.Plate,      // anode grid of a pentagrid oscillator
            "a" => ElectrodeKind.Plate,       // final anode of a picture tube
            "focus" or "ray" or "target" => ElectrodeKind.Other,
            _ => null,
        };
        if (word is { } kind) return new(kind, "", text);
        if (JoinedGrids().IsMatch(text)) return new(ElectrodeKind.Screen, "", text);

        var match = Lettered().Match(text);
        if (!match.Success) return null;
        var section = match.Groups["section"].Value;
        return match.Groups["electrode"].Value switch
        {
            "p" => new(valveClass == "diode" ? ElectrodeKind.DiodePlate : ElectrodeKind.Plate, section, text),
            "k" => new(ElectrodeKind.Cathode, section, text),
            "d" => new(ElectrodeKind.DiodePlate, section, text),
            _ => Grid(section, valveClass, text),
        };
    }

    /// <summary>The electrodes that the words on a socket's lug mean; empty when they mean none.</summary>
    /// <param name="words">"grid 1 (oscillator)", "cathode and beam plates", "plate, unit 2", "no connection".</param>
    public static ImmutableArray<Electrode> FromWords(string? words)
    {
        if (string.IsNullOrWhiteSpace(words)) return [];
        // What stands in brackets explains, except where it alone says which grid it is.
        var text = words.ToLowerInvariant();
        var main = Brackets().Replace(text, " ").Split(';')[0].Trim();
        var bracketed = string.Join(' ', Brackets().Matches(text).Select(m => m.Value));
        var unit = Unit().Match(main) is { Success: true } u ? u.Groups[1].Value : "";
        var found = ImmutableArray.CreateBuilder<Electrode>();
        void Add(ElectrodeKind kind, string letters, string section = "") => found.Add(new(kind, section, letters));

        if (main.Contains("no connection") || main is "nc" or "n.c." or "blank" or "empty") Add(ElectrodeKind.NoConnection, "nc");
        if (main.Contains("internal connection") || main == "ic") Add(ElectrodeKind.Internal, "ic");
        if (main.Contains("shell") || main.Contains("sleeve")) Add(ElectrodeKind.Shell, "shell");
        if (main.Contains("heater") || Word(main, "h"))
            Add(main.Contains("tap") ? ElectrodeKind.HeaterTap : ElectrodeKind.Heater, main.Contains("centre tap") || main.Contains("center tap") ? "hct" : main.Contains("tap") ? "htap" : "h");
        if (main.Contains("filament") || Word(main, "f")) Add(ElectrodeKind.Filament, "f");
        if (main.Contains("cathode") || Word(main, "k")) Add(ElectrodeKind.Cathode, "k" + unit, unit);
        if (main.Contains("beam plate") || main.Contains("beam-forming")) Add(ElectrodeKind.BeamPlates, "bp");
        if (main.Contains("diode plate") || main.Contains("diode anode"))
            Add(ElectrodeKind.DiodePlate, "d" + FirstDigit(main), FirstDigit(main));
        else if (!main.Contains("beam plate") && (main.Contains("plate") || main.Contains("anode") || Word(main, "p") || Word(main, "a")))
        {
            var section = unit.Length > 0 ? unit : FirstDigit(main);
            Add(ElectrodeKind.Plate, "p" + section, section);
        }
        if (found.Count > 0 && found[0].Kind is ElectrodeKind.NoConnection or ElectrodeKind.Internal && !main.Contains('/')) return [found[0]];

        if (main.Contains("screen") || bracketed.Contains("screen")) Add(ElectrodeKind.Screen, "g2");
        else if (main.Contains("suppressor") || bracketed.Contains("suppressor")) Add(ElectrodeKind.Suppressor, "g3");
        else if (GridWords().Match(main) is { Success: true } grid)
        {
            var number = grid.Groups[1].Value;
            if (bracketed.Contains("focus")) Add(ElectrodeKind.Other, "g" + number);
            else if (number is "1" || bracketed.Contains("signal") || bracketed.Contains("oscillator")) Add(ElectrodeKind.ControlGrid, "g" + number);
            else if (number is "2") Add(ElectrodeKind.Screen, "g2");
            else if (number is "3") Add(ElectrodeKind.Suppressor, "g3");
            else if (number.Length > 0) Add(ElectrodeKind.Other, "g" + number);
            else Add(ElectrodeKind.ControlGrid, "g" + unit, unit);
        }
        if (main.Contains("shield")) Add(ElectrodeKind.Shield, "is");
        return found.ToImmutable();
    }

    private static Electrode? Grid(string section, string valveClass, string text)
    {
        if (valveClass is "twin-triode" or "triode" or "duodiode-triode") return new(ElectrodeKind.ControlGrid, section == "1" && valveClass != "twin-triode" ? "" : section, text);
        var converter = valveClass.Contains("converter") || valveClass.Contains("heptode") || valveClass.Contains("hexode");
        return section switch
        {
            "" or "1" => new(ElectrodeKind.ControlGrid, "", text),
            "2" => new(ElectrodeKind.Screen, "", text),
            "3" when valveClass == "picture tube" => new(ElectrodeKind.Other, "", text),
            "3" => new(converter ? ElectrodeKind.ControlGrid : ElectrodeKind.Suppressor, "", text),
            "4" when converter => new(ElectrodeKind.ControlGrid, "", text),
            "5" when converter => new(ElectrodeKind.Suppressor, "", text),
            "4" or "5" => new(ElectrodeKind.Other, "", text),
            _ => new(ElectrodeKind.ControlGrid, section, text),        // gt, gt1, gh: the letter is the section
        };
    }

    private static bool Word(string text, string letter) => text == letter;
    private static string FirstDigit(string text) => Digit().Match(text).Value;

    [GeneratedRegex("^(g[1-5]){2,}$")] private static partial Regex JoinedGrids();
    [GeneratedRegex("^(?<electrode>[pgkd])(?<section>[1-5]|t[12]?|h|p)?$")] private static partial Regex Lettered();
    [GeneratedRegex(@"\([^)]*\)")] private static partial Regex Brackets();
    [GeneratedRegex(@"(?:unit|section|system)\s*([12])\b")] private static partial Regex Unit();
    [GeneratedRegex(@"\b(?:grids?|g)\s*([1-7])?")] private static partial Regex GridWords();
    [GeneratedRegex("[1-9]")] private static partial Regex Digit();
}
