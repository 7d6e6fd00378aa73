using System.Collections.Immutable;
using CsCheck;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Markings.Colours;

namespace Lugbook.Trade.Tests.Markings.Colours;

/// <summary>Source: none outside; what must hold for every code whatever its tables say.</summary>
public class ColourPropertiesTests
{
    private static readonly Gen<Colour> AnyColour = OneOf<Colour>([.. ColourNames.All, Colour.None]);

    /// <summary>A code, one of its forms, and colours that may stand in its places.</summary>
    private static readonly Gen<(CodeLayout Layout, Arrangement Form, ImmutableArray<Colour?> Colours)> Representable =
        from layout in OneOf<CodeLayout>([.. CodeLayouts.All.Where(l => l.Id != "mica-button")])
        from form in OneOf<Arrangement>([.. layout.Forms])
        from picks in Gen.Int[0, 999].Array[form.Slots.Length]
        select (layout, form, form.Slots.Select((slot, i) =>
        {
            var may = layout.Table.Rows.Where(r => Decoder.Objection(layout, slot, r.Colour) is null).Select(r => r.Colour).ToList();
            return (Colour?)may[picks[i] % may.Count];
        }).ToImmutableArray());

    [Fact]
    public void Value_to_colours_to_value_gives_the_value_and_the_tolerance_back()
    {
        var families = new HashSet<string>();
        Representable.Sample(one =>
        {
            var (layout, form, colours) = one;
            var (read, _) = Decoder.Read(layout, form, colours);
            if (read is null) return;
            var looks = ColourCodes.LookFor(read.Value, layout.Unit, read.Tolerance, read.Volts, read.TempcoPpm);
            var look = looks.SingleOrDefault(l => l.Family.Id == layout.Id);
            Assert.True(look is not null, $"{layout.Id} {string.Join(' ', colours)} = {read.Value}: nothing to look for");
            Assert.True(look.Exact, $"{layout.Id} {string.Join(' ', colours)}: {look.Marking} {look.Shows} is not exact");
            var result = ColourMarking.Read(look.Marking, new() { ColourCode = layout.Id });
            Assert.True(result.Meanings.Any(m => m.Unit == layout.Unit && Near(m.Value, read.Value)
                    && (read.Tolerance is null || m.Tolerance is { } t && Near(t.Plus, read.Tolerance.Value.Plus) && Near(t.Minus, read.Tolerance.Value.Minus))
                    && (read.Volts is null || m.RatedVolts == read.Volts)),
                $"{layout.Id} {string.Join(' ', colours)} = {read.Value} {read.Tolerance} {read.Volts} V: {look.Marking} reads {result.Best?.Value} {result.Best?.Tolerance} {result.Best?.RatedVolts}; {result.Complaint}");
            lock (families) families.Add(layout.Id);
        }, iter: 4000);
        Assert.Equal(CodeLayouts.All.Length - 1, families.Count);
    }

    [Fact]
    public void Colours_as_written_are_always_among_the_meanings_of_their_code() => Representable.Sample(one =>
    {
        var (layout, form, colours) = one;
        if (Decoder.Read(layout, form, colours).Decoded is not { } read) return;
        var result = ColourMarking.Read(string.Join(' ', colours.Select(c => c!.Value.Name())), new() { ColourCode = layout.Id });
        Assert.True(result.Meanings.Any(m => Near(m.Value, read.Value)), $"{layout.Id} {string.Join(' ', colours)}: {read.Value} is not among {result.Meanings.Length}; {result.Complaint}");
    }, iter: 4000);

    [Fact]
    public void A_part_read_from_the_wrong_end_still_gives_its_value_when_it_is_a_made_one()
    {
        var turnable = 0;
        Representable.Sample(one =>
        {
            var (layout, form, colours) = one;
            if (!layout.CanTurn || Decoder.Read(layout, form, colours).Decoded is not { } read) return;
            var (belief, fit, _) = Belief.InReading(read, MarkingContext.None);
            if (fit < Fit.Round || belief < 0.5) return;
            Interlocked.Increment(ref turnable);
            var turned = string.Join(' ', Turning.Turn(colours).Select(c => c!.Value.Name()));
            var result = ColourMarking.Read(turned, new() { ColourCode = layout.Id });
            // Named, a colour that the code does not have is a complaint, and that tells what the turned part reads.
            Assert.True(result.Meanings.Any(m => Near(m.Value, read.Value)) || (result.Complaint?.Remedy.StartsWith("Turn the part", StringComparison.Ordinal) ?? false),
                $"{layout.Id} {turned}: {read.Value} is not offered; {result.Complaint}");
        }, iter: 4000);
        Assert.True(turnable > 100);
    }

    [Fact]
    public void Turning_twice_is_where_it_was() =>
        AnyColour.Array[1, 9].Sample(colours =>
        {
            var once = colours.ToImmutableArray();
            Assert.Equal(once, Turning.Turn(Turning.Turn(once)));
        });

    [Fact]
    public void No_row_of_colours_throws_and_shares_add_up() =>
        (from words in OneOf<string>([.. ColourNames.All.Select(c => c.Name()), "none", "?", "red?", "gr", "tan", "body", "tip", "dot", "TL", "BR", "blcak"]).Array[0, 10]
         from code in OneOf<string?>([null, .. CodeLayouts.All.Select(l => l.Id), "nonsense"])
         from kind in Gen.Enum<Trade.Parts.PartKind>()
         from known in Gen.Bool
         from year in Gen.Int[1920, 1990]
         select (Text: string.Join(' ', words), Context: new MarkingContext { ColourCode = code, Kind = known ? kind : null, Year = known ? year : null }))
        .Sample(one => AssertSound(one.Text, one.Context), iter: 3000);

    [Fact]
    public void No_text_at_all_throws() =>
        Gen.String.Sample(text =>
        {
            _ = ColourMarking.LooksLikeColours(text);
            AssertSound(text, MarkingContext.None);
        }, iter: 3000);

    private static Gen<T> OneOf<T>(T[] these) => Gen.Int[0, these.Length - 1].Select(i => these[i]);

    private static void AssertSound(string text, MarkingContext context)
    {
        var result = ColourMarking.Read(text, context);
        Assert.True(result.Meanings.IsEmpty == result.Complaint is not null, text);
        if (result.Complaint is { } complaint)
        {
            Assert.InRange(complaint.At, 0, complaint.Text.Length);
            Assert.True(complaint.Problem.Length > 0 && complaint.Remedy.Length > 0);
            return;
        }
        Assert.Equal(1, result.Meanings.Sum(m => m.Share), 9);
        Assert.All(result.Meanings, m =>
        {
            Assert.True(m.Share > 0 && m.Value > 0 && double.IsFinite(m.Value) && m.Reason.Length > 0, text);
        });
        Assert.Equal(result.Meanings.Select(m => m.Share).OrderDescending(), result.Meanings.Select(m => m.Share));
        Assert.True(result.Meanings.Length <= 12, $"{text}: {result.Meanings.Length} meanings are a flood");
    }

    private static bool Near(double a, double b) => Math.Abs(a - b) <= 1e-9 * Math.Abs(b);
}
