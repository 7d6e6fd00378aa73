using CsCheck;
using Lugbook.Trade;
using Lugbook.Trade.Chassis;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Photographs;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Text;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Valves;
using Lugbook.Trade.Work;

namespace Lugbook.Store.Tests.Exchange;

/// <summary>Random books: awkward words, exact numbers, sparse unknown columns, identities with gaps.</summary>
/// <remarks>
/// "Tidy" is what the forgiving exchange form can hold: no blanks around words, LF line ends, names of lugs that look like names, values within the
/// trade's bounds. "Wild" is what only the exact archive promises to hold.
/// </remarks>
internal static class RandomBooks
{
    private const string Awkward = "abzXZ019 ,;\t|\"'\n=+-@#%µΩé€漢_()[]{}<>&\\/.:";
    private static readonly Gen<string> Anything = Gen.Char[Awkward].Array[1, 12].Select(c => new string(c));
    private static readonly Gen<string> TidyWords = Anything.Select(s => s.Trim()).Where(s => s.Length > 0 && !IsMeaningful(s));
    private static readonly Gen<string> WildWords = Gen.OneOf(Anything, Gen.Const("\r\n"), Gen.Const(" \r"), Gen.Const("\u00A0"), Gen.Const("#x"), Gen.Const("=1+1"));
    private static readonly Gen<string> LugNames = Gen.Select(Gen.Char["ABVKT"], Gen.Int[1, 40], Gen.Int[1, 12], (c, m, n) => $"{c}{m}-{n}");
    private static readonly Gen<double> Positive = Gen.OneOf(Gen.Double[1e-13, 1], Gen.Double[0, 1e5], Gen.Int[1, 1000].Select(i => (double)i), Gen.Int[1, 99].Select(i => i * 1e-12), Gen.Const(0.1 + 0.2));
    private static readonly Gen<Tolerance> Tolerances = Gen.OneOf(Gen.Int[0, 100].Select(p => Tolerance.Percent(p)), Gen.Double[0, 1].Select(Tolerance.Symmetric), Gen.Select(Gen.Double[0, 1], Gen.Double[0, 3], Tolerance.Between));
    private static readonly string[] Kinds = ["resistor", "paper", "electrolytic", "control", "winding", "valve", "mica", "sub-unit", "glass"];

    /// <summary>Books that survive every form.</summary>
    public static Gen<Book> Tidy { get; } = Books(TidyWords, LugNames, tidy: true);
    /// <summary>Books that only the archive must keep exactly.</summary>
    public static Gen<Book> Wild { get; } = Books(WildWords, WildWords, tidy: false);

    /// <summary>Words with a meaning of their own in some column.</summary>
    private static bool IsMeaningful(string s) => s is "-" or "--" or "---" || s[0] == '#';

    private static Gen<T?> Maybe<T>(this Gen<T> gen) where T : class => Gen.Select(Gen.Bool, gen, (has, value) => has ? value : null);
    private static Gen<T?> MaybeValue<T>(this Gen<T> gen) where T : struct => Gen.Select(Gen.Bool, gen, (has, value) => has ? value : (T?)null);

    private static Gen<Book> Books(Gen<string> words, Gen<string> lugs, bool tidy)
    {
        var extras = Gen.Select(Gen.Bool.Array[3], words.Array[3], (has, texts) =>
            Extras.From(new[] { "supplier", "= price, net", "x \"y\"" }.Zip(texts).Where((_, i) => has[i]).Select(p => KeyValuePair.Create(p.First, p.Second))));
        // Rows of which the form could take the kind or the mount from something else always carry it.
        var names = tidy ? Gen.Select(Gen.Char["RCLVT"], Gen.Int[1, 99], (c, n) => $"{c}{n}") : words;
        var mountNames = tidy ? Gen.Select(Gen.Char["ABVKT"], Gen.Int[1, 40], (c, n) => $"{c}{n}") : words;
        var parts = Gen.Select(
            Gen.Select(names, Gen.Int[0, Kinds.Length - 1].Select(i => Kinds[i]), words.Maybe(), Positive.MaybeValue(), Gen.Enum<Unit>().MaybeValue(), Positive.MaybeValue(), Positive.MaybeValue()),
            Gen.Select(Tolerances.MaybeValue(), lugs.Maybe(), lugs.Maybe(), lugs.Maybe(), Gen.Char["ab"].MaybeValue(), words.Maybe(), words.Maybe()),
            Gen.Select(words.Maybe(), extras, Gen.Double[-400, 400].MaybeValue(), Gen.Double[-360, 360].MaybeValue()), (a, b, c) => new Part
            {
                Name = a.Item1, KindAsWritten = a.Item2, Marked = a.Item3,
                // In the forgiving form a marking would give its value, a bare number its unit, and a value bounds.
                Value = tidy && a.Item5 is null ? null : a.Item4 is { } v && tidy ? Math.Min(v, 1) : a.Item4,
                Unit = a.Item5, RatedVolts = a.Item6, RatedWatts = a.Item7, Tolerance = b.Item1, LeadA = b.Item2, LeadB = b.Item3, LeadC = b.Item4, PlusLead = b.Item5, Group = b.Item6, Code = b.Item7, Note = c.Item1, Extras = c.Item2,
                BodyX = c.Item3, BodyY = c.Item4 / 2, BodyTurn = c.Item4,
            }).Select(p => tidy && p.Value is null ? p with { Marked = null } : p);
        var mounts = Gen.Select(mountNames, words, words.Maybe(), extras, (n, k, note, e) => new Mount { Name = n, KindAsWritten = k, Note = note, Extras = e });
        var lugRows = Gen.Select(lugs, mountNames, Gen.Int[0, 20].MaybeValue(), words.Maybe(), Gen.Double[-400, 400].MaybeValue(), Gen.Double[-400, 400].MaybeValue(), words.Maybe(), extras,
            (n, m, no, f, x, y, note, e) => new Lug { Name = n, Mount = m, No = no, Function = f, X = x, Y = y, Note = note, Extras = e });
        var wires = Gen.Select(words, lugs, lugs, words.Maybe(), words.Maybe(), words.Maybe(), extras, (n, f, t, k, c, note, e) => new Wire { Name = n, From = f, To = t, KindAsWritten = k, Colour = c, Note = note, Extras = e });
        var declared = Gen.Select(lugs, Gen.Double[-1000, 1000], words.Maybe(), extras, (n, v, w, e) => new DeclaredVoltage { Name = n, Volts = v, Why = w, Extras = e });
        var readings = Gen.Select(mountNames, Gen.Int[1, 12], Gen.Double[-500, 500].MaybeValue(), Gen.Bool, Gen.OneOf(Positive, Gen.Const(double.PositiveInfinity)).MaybeValue(), words.Maybe(), extras,
            (v, p, volts, ac, ohms, note, e) => new SheetReading { Name = $"{v}-{p}", Valve = v, Pin = $"{p}", Volts = volts, IsAc = ac, Ohms = ohms, Note = note, Extras = e });
        var sheetParts = parts.Select(p => new SheetPart { Name = p.Name, KindAsWritten = p.KindAsWritten, Marked = p.Marked, Value = p.Value, Unit = p.Unit, RatedVolts = p.RatedVolts, RatedWatts = p.RatedWatts, Tolerance = p.Tolerance, Note = p.Note, Extras = p.Extras });
        var work = Gen.Select(names, Gen.Enum<Decision>(), Gen.Select(words.Maybe(), words.Maybe()), words.Maybe(), Gen.Bool, words.Maybe(), extras, (n, d, r, rep, done, note, e) => new PositionWork { Name = n, Decision = d, Reason = r.Item1, Role = r.Item2, Replacement = rep, Done = done, DoneAt = done ? new DateTimeOffset(2026, 11, 30, 20, 15, 0, TimeSpan.FromHours(n.Length % 3)).AddSeconds(0.25) : null, DoneStep = done ? n.Length + 1 : null, Note = note, Extras = e });
        var measured = Gen.Select(names, Gen.Enum<ReadingKind>(), Positive, Gen.Int[0, 7], words.Maybe(), Gen.Double[1, 1000].MaybeValue(), Gen.Select(words.Maybe(), extras), (n, k, v, flags, meter, volts, rest) => new Reading
        {
            Name = n, Kind = k, Value = v, IsOver = (flags & 1) != 0, IsLifted = (flags & 2) != 0, IsReversed = (flags & 4) != 0, LiftedPart = meter, FromLug = meter, ToLug = meter, Meter = meter, TestVolts = volts,
            At = flags > 3 ? new DateTimeOffset(2026, 11, 25, 20, flags, 0, TimeSpan.Zero) : null, Note = rest.Item1, Extras = rest.Item2,
        });
        // Within what a meter can be, so that the forgiving form keeps every figure.
        var meters = Gen.Select(names, Gen.Enum<MeterFunction>(), Gen.Double[1e-12, 1e9], Gen.Double[0.01, 40], Gen.Int[0, 15], words.Maybe(), extras, (n, f, top, share, which, note, e) => new MeterLine
        {
            Name = n, Function = f, Top = top, ReadingPercent = (which & 1) != 0 ? null : share, FullScalePercent = (which & 1) != 0 ? share : null, Digits = (which & 2) != 0 ? 3 : null, Counts = (which & 2) != 0 ? 2000 : null,
            TestVolts = (which & 4) != 0 ? 10 * share : null, InputOhms = (which & 4) != 0 ? 11e6 : null, OhmsPerVolt = (which & 4) == 0 ? 20e3 : null, Hertz = (which & 8) != 0 ? 120 : null, Note = note, Extras = e,
        });
        var figure = Gen.Double[0.01, 90].MaybeValue();
        var valves = Gen.Select(names, words.Maybe(), tidy ? Gen.Const("1=p;2=g;3=k;4=h;5=h").Maybe() : words.Maybe(), figure, figure, words.Maybe(), extras, (n, w, pins, a, b, note, e) => new OwnValve
        {
            Name = n, Equivalents = tidy ? null : w, Class = w, Base = note, Pinout = tidy ? "1=p;2=g;3=k;4=h;5=h" : pins, HeaterVolts = a, HeaterAmperes = b, MaxPlateVolts = a, MaxPlateWatts = b, MaxScreenVolts = b, MaxScreenWatts = a,
            MaxCathodeMilliamperes = a, MaxHeaterCathodeVolts = b, Source = w, Note = note, Extras = e,
        });
        var valveLines = Gen.Select(names, figure, figure, figure, words.Maybe(), words.Maybe(), extras, (n, a, b, c, w, note, e) => new ValveLine
        {
            Name = n, PlateVolts = a, ScreenVolts = b, GridVolts = -c, Grid3Volts = c, CathodeOhms = a, PlateMilliamperes = b, ScreenMilliamperes = c, Micromhos = a, PlateOhms = b, Mu = c,
            Connection = w, Kind = note, VoltsTo = w, Source = note, Confidence = w, Extras = e,
        });
        var sums = Gen.Char["0123456789abcdef"].Array[64].Select(c => new string(c));
        var photographs = Gen.Select(names, sums, Gen.Int[16, 20_000], Gen.Enum<PhotoMoment>(), words.Maybe(), words.Maybe(), extras, (n, sum, side, moment, place, caption, e) => new Photograph
        {
            Name = n, Content = sum, MediaType = "image/png", Width = side, Height = side / 2, Moment = moment, Place = place, Caption = caption, Extras = e,
        });
        var pins = Gen.Select(lugs, names, Gen.Double[0, 20_000], Gen.Double[0, 20_000], Gen.Bool, extras, (n, p, x, y, points, e) => new PhotoPin { Name = n, Photograph = p, X = x, Y = y, OnlyPoints = points, Extras = e });
        var facts = Gen.Select(words, Gen.Int[1900, 1970].MaybeValue(), words.Maybe(), Gen.Double[1, 300].MaybeValue(), Gen.Double[1, 100].MaybeValue(), lugs.Maybe(), Gen.Enum<MegHabit>(), (t, y, s, v, h, c, m) => new BookFacts { Title = t, Year = y, Story = s, LineVolts = v, LineHertz = h, CommonLug = c, MegHabit = m, Meter = s, Policy = s, FitRules = s, TodayLineVolts = v, ChartLineVolts = v, ChartOhmsPerVolt = h is null ? null : 20e3, ChartInputOhms = h is null ? null : 11e6 });
        return Gen.Select(Gen.Select(facts, mounts.Array[0, 4], lugRows.Array[0, 6], parts.Array[0, 8], wires.Array[0, 5]), Gen.Select(declared.Array[0, 3], readings.Array[0, 4], sheetParts.Array[0, 4], Gen.Select(work.Array[0, 4], measured.Array[0, 3], meters.Array[0, 3], valves.Array[0, 2], valveLines.Array[0, 3]), Gen.Int[0, 3], Gen.Select(photographs.Array[0, 3], pins.Array[0, 4])), (a, b) => new Book
        {
            Name = "random", Facts = a.Item1,
            Mounts = Of(a.Item2.DistinctBy(m => m.Name.ToUpperInvariant()), b.Item5, tidy), Lugs = Of(a.Item3, b.Item5, tidy), Parts = Of(a.Item4, b.Item5, tidy), Wires = Of(a.Item5, b.Item5, tidy),
            Declared = Of(b.Item1, b.Item5, tidy), SheetReadings = Of(b.Item2, b.Item5, tidy), SheetParts = Of(b.Item3, b.Item5, tidy), Work = Of(b.Item4.Item1, b.Item5, tidy), Readings = Of(b.Item4.Item2, b.Item5, tidy), Meters = Of(b.Item4.Item3, b.Item5, tidy), ValveTypes = Of(b.Item4.Item4, b.Item5, tidy), ValveLines = Of(b.Item4.Item5, b.Item5, tidy),
            Photographs = Of(b.Item6.Item1, b.Item5, tidy), PhotoPins = Of(b.Item6.Item2, b.Item5, tidy),
        });
    }

    /// <summary>A table whose identities leave gaps when asked, and whose first row names every unknown column, as one that was read does.</summary>
    private static Table<T> Of<T>(IEnumerable<T> rows, int gap, bool tidy) where T : Row
    {
        var list = rows.ToList();
        var keys = list.SelectMany(r => r.Extras.Keys).Distinct().Order(StringComparer.Ordinal).ToList();
        return Table<T>.Of(list.Select((row, i) => (T)((Row)row with
        {
            Id = gap == 0 ? 0 : 1 + i * gap + (i > 1 ? 5 : 0),
            Extras = i > 0 ? Extras.From(row.Extras) : Extras.From(keys.Select(k => KeyValuePair.Create(k, row.Extras.TryGetValue(k, out var v) ? v : ""))),
        })));
    }
}
