using System.Globalization;
using CsCheck;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Preferred;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Tests.Markings.Text;

public class RobustnessTests
{
    private const string Alphabet = "0123456789.,-+/%~×x()=&@°?' kKmMGTRrpPnNuUµμΩωVvWwAaFfHhDdEeCcJjLlOoSsXxYyZzQI½¼\u00A0–±\t\"#*:;";

    private static readonly string[] Examples = [.. ReferenceRows.Of("letter-codes.csv").Where(r => r["record"].EndsWith("example", StringComparison.Ordinal)).Select(r => r["code"])];

    private static readonly PartKind[] Kinds = Enum.GetValues<PartKind>();

    private static bool IsSound(string marking, MarkingContext context)
    {
        var result = TextMarking.Read(marking, context);
        if (result.Complaint is { } c)
            return result.Meanings.IsEmpty && c.At >= 0 && c.At <= marking.Length && c.Problem.Length > 0 && c.Remedy.Length > 0 && c.ToString().Length > 0;
        return !result.Meanings.IsEmpty && Math.Abs(result.Meanings.Sum(m => m.Share) - 1) < 1e-9
            && result.Meanings.All(m => m.Share > 0 && !m.Sections.IsEmpty && m.Sections.All(s => s.Value > 0 && double.IsFinite(s.Value) && s.RatedVolts is null or > 0) && m.Reason.Length > 0)
            && result.Meanings.Zip(result.Meanings.Skip(1)).All(p => p.First.Share >= p.Second.Share);
    }

    private static Gen<T> OneOf<T>(params T[] of) => Gen.Int[0, of.Length - 1].Select(i => of[i]);

    private static Gen<MarkingContext> Context => Gen.Select(Gen.Int[-1, Kinds.Length - 1], Gen.Enum<MegHabit>(), Gen.Int[0, 3], Gen.Double, (k, habit, more, expected) => new MarkingContext
    {
        Kind = k < 0 ? null : Kinds[k],
        MegHabit = habit,
        Year = more == 1 ? 1936 : null,
        ExpectedValue = more == 2 ? expected : null,
        OtherMarkings = more == 3 ? ["1 MEG", "250M", "", "?"] : [],
    });

    [Fact]
    public void Any_string_gives_meanings_or_a_complaint_and_never_an_exception() =>
        Gen.Select(Gen.String, Context).Sample(IsSound, iter: 4_000);

    [Fact]
    public void Any_string_of_the_trades_own_characters_does_too() =>
        Gen.Select(Gen.String[Gen.Char[Alphabet], 0, 24], Context).Sample(IsSound, iter: 20_000);

    [Fact]
    public void Any_pile_of_the_trades_own_words_does_too() =>
        Gen.Select(OneOf("MFD", "MMF", "47", ".05", "K", "M", "MEG", "OHMS", "400V", "1/2", "W", "-", "/", "+", "%", "±", "X2", "Y1", "104", "J", "2G", "mica", "TEST", "x", "3", "?", "half", "H", "mA", "~", "GMV", "N750", "0", "°C", "and", "@", "N", "7")
            .Array[1, 8], Gen.Bool, Context, (words, glued, context) => (string.Join(glued ? "" : " ", words), context)).Sample(t => IsSound(t.Item1, t.context), iter: 20_000);

    [Fact]
    public void Mutated_examples_do_too() =>
        Gen.Select(OneOf(Examples), Gen.Int[0, 40], Gen.Char[Alphabet], Gen.Int[0, 2], Context, (text, at, c, how, context) =>
        {
            at = text.Length == 0 ? 0 : at % text.Length;
            var mutated = how switch
            {
                0 => text.Insert(at, c.ToString()),
                1 when text.Length > 0 => text.Remove(at, 1),
                2 when text.Length > 0 => text[..at] + c + text[(at + 1)..],
                _ => text,
            };
            return (mutated, context);
        }).Sample(t => IsSound(t.mutated, t.context), iter: 20_000);

    /// <summary>Source: the house rule that the machine's culture never changes a number.</summary>
    [Fact]
    public void The_culture_of_the_machine_changes_nothing()
    {
        static List<string> ReadAll() => [.. Examples.SelectMany(e => TextMarking.Read(e).Meanings.Select(m => Expect.Line(m) + m.Reason + m.Share.ToString("R", CultureInfo.InvariantCulture)))];
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            var invariant = ReadAll();
            foreach (var name in new[] { "de-DE", "tr-TR", "fr-FR", "sv-SE", "fa-IR" })
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
                Assert.Equal(invariant, ReadAll());
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Null_reads_like_nothing() => Assert.Equal("nothing is written", TextMarking.Read(null!).Complaint!.Problem);

    private static readonly double[] Ohms = [.. PreferredValues.Within(0.1, 22e6, PreferredSeries.E24)];
    private static readonly double[] Farads = [.. PreferredValues.Within(1e-12, 470e-6, PreferredSeries.E24)];
    private static readonly double[] Henries = [.. PreferredValues.Within(1e-6, 30, PreferredSeries.E12)];

    /// <summary>Source: what is printed must be read back, in every notation, for every made value of the trade.</summary>
    [Theory]
    [InlineData(NotationStyle.Plain)]
    [InlineData(NotationStyle.Shop)]
    [InlineData(NotationStyle.LetterCode)]
    [InlineData(NotationStyle.Old)]
    [InlineData(NotationStyle.OldThousand)]
    public void Print_then_read_gives_the_value_back(NotationStyle style)
    {
        var habit = style == NotationStyle.OldThousand ? MegHabit.Thousand : MegHabit.Million;
        void AllCome(double[] values, Unit unit, params PartKind?[] kinds)
        {
            foreach (var kind in kinds)
                foreach (var value in values)
                {
                    var text = Notation.Print(value, unit, style);
                    var best = TextMarking.Read(text, new() { Kind = kind, MegHabit = habit }).Best;
                    Assert.True(best is not null && best.Unit == unit && best.Sections.Length == 1 && Math.Abs(best.Value / value - 1) < 1e-9, $"{text} as {kind}: {(best is null ? "nothing" : Expect.Line(best))}");
                }
        }
        AllCome(Ohms, Unit.Ohm, PartKind.Resistor, PartKind.Control, null);
        AllCome(Farads, Unit.Farad, PartKind.Capacitor, PartKind.Film, null);
        AllCome(Henries, Unit.Henry, PartKind.Winding, null);
    }

    /// <summary>Source: as above, with the tolerance and the volts beside the value.</summary>
    [Fact]
    public void Print_then_read_gives_tolerance_and_volts_back() =>
        Gen.Select(OneOf(Farads), OneOf(1.0, 2.0, 5.0, 10.0, 20.0), OneOf(25.0, 63.0, 200.0, 400.0, 450.0, 600.0, 630.0, 1000.0, 1600.0), Gen.Enum<NotationStyle>()).Sample((value, percent, volts, style) =>
        {
            var text = $"{Notation.Print(value, Unit.Farad, style)} {Notation.Print(Tolerance.Percent(percent))} {Notation.Print(volts, Unit.Volt)}";
            var best = TextMarking.Read(text).Best;
            return best is not null && Math.Abs(best.Value / value - 1) < 1e-9 && best.Tolerance == Tolerance.Percent(percent) && best.RatedVolts == volts;
        }, iter: 5_000);
}
