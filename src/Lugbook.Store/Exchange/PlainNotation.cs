using System.Text.RegularExpressions;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Store.Exchange;

/// <summary>Values as people type them into a value column today: 10n, 4n7, 22 pF, 2u2, 4k7, 470R.</summary>
/// <remarks>
/// A marking on a body may mean by its letter a tolerance; what someone typed as a value means a multiple (IEC 60062 letters, SI prefixes).
/// Only what has one meaning: no M, no m, no capital N, P or U, and no number that may hold a thousands mark. All else is the marking reader's.
/// </remarks>
internal static partial class PlainNotation
{
    public static (double Value, Unit Unit)? Read(string text, PartKind kind, CommaHabit habit)
    {
        var match = Pattern().Match(text);
        if (!match.Success) return null;
        var (whole, letter, rest, unitWord) = (match.Groups[1].Value, match.Groups[2].Value, match.Groups[3].Value, match.Groups[4].Value);
        if (rest.Length > 0 && whole.AsSpan().IndexOfAny(',', '.') >= 0) return null;
        if (NumberText.CouldBeThousands(whole)) return null;
        var plain = rest.Length > 0 ? $"{whole}.{rest}" : NumberText.Plain(whole, habit, out _, out _);
        if (plain is null) return null;
        var (power, letterUnit) = letter switch
        {
            "p" => (-12, (Unit?)null),
            "n" => (-9, null),
            "u" or "µ" or "μ" => (-6, null),
            "k" or "K" => (3, Unit.Ohm),
            _ => (0, Unit.Ohm),
        };
        var said = unitWord switch { "F" => Unit.Farad, "" => (Unit?)null, _ => Unit.Ohm };
        var unit = letterUnit ?? said ?? (kind.IsCapacitor() ? Unit.Farad : null);
        if (unit is not { } known || (said is not null && said != known)) return null;
        // The letter k on a capacitor is no kilohm, and F on a resistor no value.
        return PartKinds.UnitOf(kind) is { } own && own != known ? null : (NumberText.Scaled(plain, power), known);
    }

    [GeneratedRegex(@"^([0-9]*[.,]?[0-9]+)\s*(p|n|u|µ|μ|k|K|R)([0-9]*)\s*(F|Ω|Ω|ohm|Ohm|ohms|R|)$", RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
