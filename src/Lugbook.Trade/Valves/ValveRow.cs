using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Valves;

/// <summary>One line of a handbook file, as text.</summary>
/// <param name="Type">Usual name.</param>
/// <param name="Equivalents">Other names, divided by semicolons, each with a remark in brackets or without.</param>
/// <param name="Class">Class.</param>
/// <param name="Base">Base.</param>
/// <param name="Pinout">As <see cref="Pinouts"/> reads it.</param>
/// <param name="HeaterVolts">Heater volts, or empty.</param>
/// <param name="HeaterAmperes">Heater amperes, or empty.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Confidence">"verified" or "memory".</param>
public sealed partial record ValveRow(string Type, string Equivalents, string Class, string Base, string Pinout, string HeaterVolts, string HeaterAmperes, string Source, string Confidence)
{
    /// <summary>The limits, when the file has them.</summary>
    public LimitCells? Limits { get; init; }

    /// <summary>The type, and one more for each name that differs in its heater alone; or the complaint.</summary>
    /// <param name="place">Where the line stands, for the complaint.</param>
    /// <remarks>
    /// A remark in brackets decides: "(12.6 V)" or "(25 V 0.6 A)" makes a type of its own with that heater; "near", "pins", a base
    /// or "series" mean that the name is no equivalent; anything else ("low hum") is only a remark.
    /// </remarks>
    public (ImmutableArray<ValveType> Types, Complaint? Complaint) Read(string place)
    {
        if (string.IsNullOrWhiteSpace(Type)) return ([], new(place, Type, 0, "a line without a type.", "Write the type in the first column, or take the line out."));
        var (pins, complaint) = Pinouts.Read(Pinout, Class, $"{place}, {Type}, pinout");
        if (complaint is not null) return ([], complaint);
        if (!TryNumber(HeaterVolts, out var volts)) return ([], new($"{place}, {Type}, heater_v", HeaterVolts, 0, "not a voltage.", "Write volts as a number, or nothing."));
        if (!TryNumber(HeaterAmperes, out var amperes)) return ([], new($"{place}, {Type}, heater_a", HeaterAmperes, 0, "not a current.", "Write amperes as a number, or nothing."));
        var (limits, wrong) = ReadLimits(place);
        if (wrong is not null) return ([], wrong);

        var same = ImmutableArray.CreateBuilder<string>();
        var others = new List<ValveType>();
        foreach (var written in Equivalents.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var named = Named().Match(written);
            if (!named.Success) continue;                        // a sentence, not a name
            var name = named.Groups["name"].Value;
            var remark = named.Groups["remark"].Value;
            if (remark.Length > 0 && Heater().Match(remark) is { Success: true } heater)
                others.Add(new(name, [], Class, Base, pins, Parse(heater.Groups["v"].Value) ?? volts, Parse(heater.Groups["a"].Value), Source, Confidence) { Limits = limits });
            else if (!Excluding().IsMatch(remark))
                same.Add(name);
        }
        ValveType type = new(Type.Trim(), same.ToImmutable(), Class.Trim(), Base.Trim(), pins, volts, amperes, Source.Trim(), Confidence.Trim()) { Limits = limits };
        return ([type, .. others], null);
    }

    private (ValveLimits Limits, Complaint? Complaint) ReadLimits(string place)
    {
        if (Limits is not { } cells) return (ValveLimits.None, null);
        Complaint? complaint = null;
        double? Limit(string column, string text)
        {
            if (TryNumber(text, out var value) && value is null or > 0) return value;
            complaint ??= new($"{place}, {Type}, {column}", text, 0, "not a limit.", "Write a number above nought in the column's unit, or nothing.");
            return null;
        }
        ValveLimits limits = new(
            Limit("max_plate_v", cells.PlateVolts), Limit("max_plate_w", cells.PlateWatts), Limit("max_screen_v", cells.ScreenVolts),
            Limit("max_screen_w", cells.ScreenWatts), Limit("max_cathode_ma", cells.CathodeMilliamperes) / 1e3, Limit("max_heater_cathode_v", cells.HeaterCathodeVolts));
        return (limits, complaint);
    }

    private static double? Parse(string text) => TryNumber(text, out var value) ? value : null;

    private static bool TryNumber(string text, out double? value)
    {
        value = null;
        if (string.IsNullOrWhiteSpace(text)) return true;
        if (!double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var number)) return false;
        value = number;
        return true;
    }

    [GeneratedRegex(@"^(?<name>[A-Za-z0-9\-/]+)(?:\s*\((?<remark>[^)]*)\))?$")] private static partial Regex Named();
    [GeneratedRegex(@"^(?:(?<v>\d+(?:\.\d+)?) V)?(?: ?(?<a>\d+(?:\.\d+)?) A)?$|(?<a>\d+(?:\.\d+)?) A heater")] private static partial Regex Heater();
    [GeneratedRegex("near|pin|octal|noval|loctal|series|version|differ", RegexOptions.IgnoreCase)] private static partial Regex Excluding();
}
