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

namespace Lugbook.Store.Tests.Shelves;

/// <summary>Books with anything in them that a book can hold: every table, missing values, infinities, awkward letters.</summary>
internal static class RandomBooks
{
    private static Gen<T> One<T>(params T[] choices) => Gen.Int[0, choices.Length - 1].Select(i => choices[i]);

    private static readonly Gen<string> Text = Gen.OneOf(
        Gen.String[Gen.Char["abcRCV0123456789 -.,;?"], 0, 8],
        One("", "µµF", "4k7 Ω", "Übertrager", "a\"b\\c", "line\nline", "\0", "\U0001F4FB", "null", "{}"));

    private static readonly Gen<double> Number = Gen.OneOf(
        Gen.Double, One(0.0, -0.0, 4700, 22e-9, 1e-300, double.MaxValue, double.Epsilon, double.PositiveInfinity, double.NegativeInfinity, 0.1 + 0.2));

    private static readonly Gen<Tolerance> Tolerances =
        Gen.Select(Gen.Double[0, 1], Gen.OneOf(Gen.Double[0, 5], Gen.Const(0.0))).Select((minus, plus) => Tolerance.Between(minus, plus));

    private static readonly Gen<Extras> ExtraColumns = Gen.OneOf(
        Gen.Const(Extras.None),
        Gen.Select(Text, Text).Select((k, v) => KeyValuePair.Create(k, v)).List[1, 3].Select(Extras.From));

    private static Gen<string?> Maybe(Gen<string> text) => Gen.OneOf(text.Select(t => (string?)t), Gen.Const((string?)null));
    private static Gen<T?> MaybeValue<T>(Gen<T> gen) where T : struct => Gen.OneOf(gen.Select(t => (T?)t), Gen.Const((T?)null));
    private static readonly Gen<(string Name, Extras Extras)> Base = Gen.Select(Text, ExtraColumns);

    private static readonly Gen<Mount> Mounts = Gen.Select(Base, Text, Maybe(Text)).Select((b, kind, note) =>
        new Mount { Name = b.Name, Extras = b.Extras, KindAsWritten = kind, Note = note });

    private static readonly Gen<Lug> Lugs = Gen.Select(Base, Text, MaybeValue(Gen.Int), MaybeValue(Number), MaybeValue(Number), Maybe(Text)).Select((b, mount, no, x, y, note) =>
        new Lug { Name = b.Name, Extras = b.Extras, Mount = mount, No = no, X = x, Y = y, Note = note, Function = note });

    private static readonly Gen<Wire> Wires = Gen.Select(Base, Text, Text, Maybe(Text)).Select((b, from, to, kind) =>
        new Wire { Name = b.Name, Extras = b.Extras, From = from, To = to, KindAsWritten = kind, Colour = kind });

    private static readonly Gen<Part> Parts = Gen.Select(
        Base, Gen.Select(Text, Maybe(Text), Maybe(Text)), MaybeValue(Number), MaybeValue(Gen.Enum<Unit>()), MaybeValue(Tolerances),
        MaybeValue(One('a', 'b')), Gen.Select(Maybe(Text), MaybeValue(Number)))
        .Select((b, texts, value, unit, tolerance, plus, rest) => new Part
        {
            Name = b.Name, Extras = b.Extras, KindAsWritten = texts.Item1, Marked = texts.Item2, LeadA = texts.Item3, Value = value, Unit = unit,
            Tolerance = tolerance, PlusLead = plus, LeadB = rest.Item1, LeadC = rest.Item1, Group = rest.Item1, Code = texts.Item2, Note = texts.Item3,
            RatedVolts = rest.Item2, RatedWatts = value,
        });

    private static readonly Gen<DeclaredVoltage> Declared = Gen.Select(Base, Number, Maybe(Text)).Select((b, volts, why) =>
        new DeclaredVoltage { Name = b.Name, Extras = b.Extras, Volts = volts, Why = why });

    private static readonly Gen<SheetReading> Readings = Gen.Select(Base, Text, MaybeValue(Number), MaybeValue(Number), Gen.Bool).Select((b, pin, volts, ohms, ac) =>
        new SheetReading { Name = b.Name, Extras = b.Extras, Valve = pin, Pin = pin, Volts = volts, Ohms = ohms, IsAc = ac });

    private static readonly Gen<SheetPart> SheetParts = Gen.Select(Base, Text, MaybeValue(Number), MaybeValue(Gen.Enum<Unit>()), MaybeValue(Tolerances)).Select((b, kind, value, unit, tolerance) =>
        new SheetPart { Name = b.Name, Extras = b.Extras, KindAsWritten = kind, Marked = kind, Value = value, Unit = unit, Tolerance = tolerance });

    private static readonly Gen<PositionWork> Work = Gen.Select(Base, Gen.Enum<Decision>(), Maybe(Text), Gen.Bool).Select((b, decision, text, done) =>
        new PositionWork { Name = b.Name, Extras = b.Extras, Decision = decision, Reason = text, Replacement = text, Role = text, Note = text, Done = done });

    private static readonly Gen<Reading> Measured = Gen.Select(Base, Gen.Enum<ReadingKind>(), Number, Gen.Bool, Maybe(Text), MaybeValue(Number), Gen.DateTimeOffset).Select((b, kind, value, flag, text, volts, at) =>
        new Reading { Name = b.Name, Extras = b.Extras, Kind = kind, Value = value, IsOver = flag, IsLifted = !flag, IsReversed = flag, LiftedPart = text, FromLug = text, ToLug = text, Meter = text, TestVolts = volts, At = flag ? at : null, Note = text });

    private static readonly Gen<MeterLine> Meters = Gen.Select(Base, Gen.Enum<MeterFunction>(), Number, MaybeValue(Number), MaybeValue(Number), Maybe(Text)).Select((b, function, top, one, other, text) =>
        new MeterLine { Name = b.Name, Extras = b.Extras, Function = function, Top = top, ReadingPercent = one, FullScalePercent = other, Digits = one, Counts = other, TestVolts = one, InputOhms = other, OhmsPerVolt = one, Hertz = other, Note = text });

    private static readonly Gen<OwnValve> Valves = Gen.Select(Base, MaybeValue(Number), MaybeValue(Number), Maybe(Text)).Select((b, one, other, text) => new OwnValve
    {
        Name = b.Name, Extras = b.Extras, Equivalents = text, Class = text, Base = text, Pinout = text, HeaterVolts = one, HeaterAmperes = other, MaxPlateVolts = one, MaxPlateWatts = other, MaxScreenVolts = one, MaxScreenWatts = other,
        MaxCathodeMilliamperes = one, MaxHeaterCathodeVolts = other, Source = text, Note = text,
    });

    private static readonly Gen<ValveLine> ValveLines = Gen.Select(Base, MaybeValue(Number), MaybeValue(Number), Maybe(Text)).Select((b, one, other, text) => new ValveLine
    {
        Name = b.Name, Extras = b.Extras, PlateVolts = one, ScreenVolts = other, GridVolts = one, Grid3Volts = other, CathodeOhms = one, PlateMilliamperes = other, ScreenMilliamperes = one, Micromhos = other, PlateOhms = one, Mu = other,
        Connection = text, Kind = text, VoltsTo = text, Source = text, Confidence = text,
    });

    private static readonly Gen<Photograph> Photographs = Gen.Select(Base, Text, Gen.Int, Gen.Enum<PhotoMoment>(), Maybe(Text)).Select((b, content, side, moment, text) =>
        new Photograph { Name = b.Name, Extras = b.Extras, Content = content, MediaType = content, Width = side, Height = side, Moment = moment, Place = text, Caption = text });

    private static readonly Gen<PhotoPin> Pins = Gen.Select(Base, Text, Number, Number, Gen.Bool).Select((b, photograph, x, y, points) =>
        new PhotoPin { Name = b.Name, Extras = b.Extras, Photograph = photograph, X = x, Y = y, OnlyPoints = points });

    private static readonly Gen<BookFacts> Facts = Gen.Select(Text, MaybeValue(Gen.Int), Maybe(Text), MaybeValue(Number), Gen.Enum<MegHabit>()).Select((title, year, story, volts, meg) =>
        new BookFacts { Title = title, Year = year, Story = story, LineVolts = volts, LineHertz = volts, CommonLug = story, MegHabit = meg, Meter = story, Policy = story, FitRules = story, TodayLineVolts = volts, ChartLineVolts = volts, ChartOhmsPerVolt = volts, ChartInputOhms = volts });

    /// <summary>Tables of up to this many rows, whose identities are small numbers in any order, so that two books have some in common.</summary>
    private static Gen<Table<T>> TableOf<T>(Gen<T> row) where T : Row =>
        Gen.Select(Gen.Int[1, 12].HashSet[0, 8], row.Array[8], Gen.Int).Select((ids, rows, seed) =>
            Table<T>.Of(ids.OrderBy(id => id * 7919 ^ seed).Zip(rows, (id, r) => (T)((Row)r with { Id = id }))));

    /// <summary>Any book of this name.</summary>
    public static Gen<Book> Named(string name) =>
        Gen.Select(Gen.Select(Facts, TableOf(Mounts), TableOf(Lugs), TableOf(Wires), Gen.Select(TableOf(Photographs), TableOf(Pins))), TableOf(Parts), TableOf(Declared), TableOf(Readings), TableOf(SheetParts), Gen.Select(TableOf(Work), TableOf(Measured), TableOf(Meters), TableOf(Valves), TableOf(ValveLines)))
            .Select((first, parts, declared, readings, sheetParts, work) => new Book
            {
                Name = name, Facts = first.Item1, Mounts = first.Item2, Lugs = first.Item3, Wires = first.Item4,
                Parts = parts, Declared = declared, SheetReadings = readings, SheetParts = sheetParts, Work = work.Item1, Readings = work.Item2, Meters = work.Item3, ValveTypes = work.Item4, ValveLines = work.Item5, Photographs = first.Item5.Item1, PhotoPins = first.Item5.Item2,
            });

    /// <summary>Any book.</summary>
    public static Gen<Book> Any => One("radio", "amp", "tv").SelectMany(Named);

    /// <summary>A book and another that an edit could have made of it: some rows are the same, some moved, altered, gone or new.</summary>
    public static Gen<(Book Before, Book After)> Pairs => Gen.Select(Any, Any, Gen.Int).Select((a, b, seed) => (a, Mixed(a, b, seed)));

    private static Book Mixed(Book a, Book b, int seed) => b with
    {
        Mounts = (seed & 1) == 0 ? a.Mounts : b.Mounts,
        Facts = (seed & 2) == 0 ? a.Facts : b.Facts,
        Parts = Table<Part>.Of(b.Parts.Select(p => (seed >> p.Id & 4) == 0 ? a.Parts.ById(p.Id) ?? p : p)),
        Lugs = Table<Lug>.Of(a.Lugs.OrderBy(l => l.Id * 31 ^ seed)),
        Work = Table<PositionWork>.Of(a.Work.Where(w => (seed >> w.Id & 8) == 0)),
    };
}
