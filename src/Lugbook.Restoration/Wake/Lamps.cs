using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Circuit;

namespace Lugbook.Restoration.Wake;

/// <summary>Which of the user's lamps suits this set.</summary>
internal static class Lamps
{
    // Below this share of the line rectifier valves are cool and regulators dark: the set looks faulty. Above the second a short draws several times the set's own current. Common practice, no source.
    private const double StarvedLine = 0.6, StarvedSupply = 0.5, MuchCurrent = 4;

    public static LampCase Of(WakeSet set, double watts, WarmedState? settled, Network hooked, double fullSupply, double fullAmperes)
    {
        var shortAmperes = watts / set.LineVolts;
        if (settled is null) return new(watts, 0, 0, 0, 0, "", shortAmperes, LampVerdict.Starves, "The healthy set does not settle behind it: it would flicker between starting and starving.");
        var shown = set.Shown(settled.Cycle);
        var (line, supply) = (shown[1] / set.LineVolts, fullSupply > 0 && shown.Length > 2 ? Math.Abs(shown[2]) / fullSupply : shown[1] / set.LineVolts);
        var glow = Glow(WakeSet.LampShare(settled.Cycle, hooked));
        var verdict = line < StarvedLine || supply < StarvedSupply ? LampVerdict.Starves : shortAmperes > MuchCurrent * Math.Max(fullAmperes, 0.02) ? LampVerdict.LetsMuchThrough : LampVerdict.Suits;
        var sentence = verdict switch
        {
            LampVerdict.Starves => string.Create(CultureInfo.InvariantCulture, $"A healthy set gets only {line * 100:0} % of the line and {supply * 100:0} % of its supply behind it, and looks like a faulty one."),
            LampVerdict.LetsMuchThrough => string.Create(CultureInfo.InvariantCulture, $"A healthy set works, but a short draws {StopLimits.Number(shortAmperes)} A, {shortAmperes / Math.Max(fullAmperes, 0.02):0} times what the set takes."),
            _ => string.Create(CultureInfo.InvariantCulture, $"A healthy set reaches {supply * 100:0} % of its supply, and a short draws no more than {StopLimits.Number(shortAmperes)} A."),
        };
        return new(watts, shown[1], line, supply, shown[0], glow, shortAmperes, verdict, sentence);
    }

    /// <summary>The smallest that does not starve the set; else the largest there is. Null without lamps.</summary>
    public static LampCase? Best(ImmutableArray<LampCase> lamps) =>
        lamps.FirstOrDefault(l => l.Verdict == LampVerdict.Suits) ?? lamps.FirstOrDefault(l => l.Verdict == LampVerdict.LetsMuchThrough) ?? lamps.LastOrDefault();

    /// <summary>How a lamp looks at a share of its rated volts.</summary>
    /// <remarks>Light goes as V^3.4 (published rerating law); the words are common practice, no source.</remarks>
    public static string Glow(double share) => share switch
    {
        < 0.08 => "dark",
        < 0.25 => "a red thread in the dark",
        < 0.45 => "dull orange",
        < 0.7 => "yellow, easy to look at",
        < 0.9 => "bright",
        _ => "full brightness",
    };
}
