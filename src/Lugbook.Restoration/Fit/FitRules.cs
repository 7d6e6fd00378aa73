using System.Collections.Immutable;
using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Order;

namespace Lugbook.Restoration.Fit;

/// <summary>Rules of thumb for the work at the bench, all the user's to change, book by book. Common practice, no source.</summary>
public sealed record FitRules
{
    /// <summary>Positions open at once, 1 to 6.</summary>
    public int Open { get; init; } = 1;
    /// <summary>Sleeve for a lead whose length is not known, mm (three quarters to one inch).</summary>
    public double SleeveMm { get; init; } = 25;
    /// <summary>Solder for a joint, mm of 0.7 to 1 mm wire.</summary>
    public double SolderMm { get; init; } = 20;
    /// <summary>Braid for a heavily soldered lug, mm (about five inches).</summary>
    public double BraidMm { get; init; } = 125;
    /// <summary>Braid for any other lug that is cleared, mm.</summary>
    public double LightBraidMm { get; init; } = 25;
    /// <summary>From how many ends on a lug is heavily soldered and crowded.</summary>
    public int CrowdedFrom { get; init; } = 4;
    /// <summary>Hook-up wire for a section of a can that is built anew, mm.</summary>
    public double WireMm { get; init; } = 150;
    /// <summary>Old lead left for a splice, mm (a sixteenth of an inch).</summary>
    public double TailMm { get; init; } = 1.6;
    /// <summary>Nearer to a lug than this a part feels the iron, mm.</summary>
    public double HeatMm { get; init; } = 10;
    /// <summary>Price of an hour of work, in the currency of the lists; 0: hours only.</summary>
    public double HourPrice { get; init; }

    private static readonly (string Word, double Least, double Most, Func<FitRules, double> Get, Func<FitRules, double, FitRules> Set)[] Words =
    [
        ("open", 1, 6, r => r.Open, (r, v) => r with { Open = (int)Math.Round(v) }),
        ("sleeve", 0, 500, r => r.SleeveMm, (r, v) => r with { SleeveMm = v }),
        ("solder", 0, 500, r => r.SolderMm, (r, v) => r with { SolderMm = v }),
        ("braid", 0, 1000, r => r.BraidMm, (r, v) => r with { BraidMm = v }),
        ("light braid", 0, 1000, r => r.LightBraidMm, (r, v) => r with { LightBraidMm = v }),
        ("crowded from", 2, 20, r => r.CrowdedFrom, (r, v) => r with { CrowdedFrom = (int)Math.Round(v) }),
        ("wire", 0, 2000, r => r.WireMm, (r, v) => r with { WireMm = v }),
        ("tail", 0.5, 20, r => r.TailMm, (r, v) => r with { TailMm = v }),
        ("hour price", 0, 10_000, r => r.HourPrice, (r, v) => r with { HourPrice = v }),
        ("heat", 0, 50, r => r.HeatMm, (r, v) => r with { HeatMm = v }),
    ];

    /// <summary>Words of all rules with the value that each has here, in mm or pieces.</summary>
    public ImmutableArray<KeyValuePair<string, double>> Values => [.. Words.Select(w => KeyValuePair.Create(w.Word, w.Get(this)))];

    /// <summary>Reads "sleeve 20; open 2"; what is not named stays as usual.</summary>
    /// <param name="text">What the book says; null for the usual rules.</param>
    /// <returns>The rules, and a sentence for each word that could not be read.</returns>
    public static (FitRules Rules, ImmutableArray<string> Complaints) Read(string? text)
    {
        var (rules, complaints) = (new FitRules(), ImmutableArray.CreateBuilder<string>());
        foreach (var piece in (text ?? "").Split([';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var cut = piece.LastIndexOfAny([' ', ':', '=']);
            var rule = cut < 0 ? default : Words.FirstOrDefault(w => w.Word.Equals(piece[..cut].Trim(' ', ':', '='), StringComparison.OrdinalIgnoreCase));
            if (rule.Word is null) complaints.Add($"'{piece}' is no rule of the bench. Write one of {string.Join(", ", Words.Select(w => w.Word))} and a number.");
            else if (!double.TryParse(piece[(cut + 1)..], NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !(value >= rule.Least && value <= rule.Most))
                complaints.Add($"'{piece}': {rule.Word} is a number from {Show.Number(rule.Least)} to {Show.Number(rule.Most)}. It stays {Show.Number(rule.Get(rules))}.");
            else rules = rule.Set(rules, value);
        }
        return (rules, complaints.ToImmutable());
    }

    /// <summary>The rules that differ from the usual ones as text; null when none does.</summary>
    public string? Write()
    {
        var usual = new FitRules();
        var own = Words.Where(w => !w.Get(this).Equals(w.Get(usual))).Select(w => string.Create(CultureInfo.InvariantCulture, $"{w.Word} {w.Get(this)}"));
        return string.Join("; ", own) is { Length: > 0 } text ? text : null;
    }

    /// <summary>The same rules for the buying list.</summary>
    public OrderPolicy ForOrder(OrderPolicy policy) => policy with
    {
        SleeveMmPerLead = SleeveMm, SolderMmPerJoint = SolderMm, BraidMmPerCrowdedLug = BraidMm, BraidMmPerLug = LightBraidMm, CrowdedFrom = CrowdedFrom, WireMmPerSection = WireMm,
    };
}
