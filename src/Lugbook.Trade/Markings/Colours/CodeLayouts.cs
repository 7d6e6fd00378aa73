using System.Collections.Immutable;
using Lugbook.Trade.Parts;
using static Lugbook.Trade.Markings.Colours.Role;
using Unit = Lugbook.Trade.Quantities.Unit;

namespace Lugbook.Trade.Markings.Colours;

/// <summary>The codes as data. Sources and confidence of each: data/reference/colour-codes.csv, records "layout".</summary>
/// <remarks>Beliefs and limits of size are judgement (common practice, no source), not measurement.</remarks>
internal static class CodeLayouts
{
    private const double Pico = 1e-12;
    private static readonly string[] SixPlaces = ["top left", "top centre", "top right", "bottom left", "bottom centre", "bottom right"];
    private static readonly ImmutableArray<PartKind> Resistors = [PartKind.Resistor];
    private static readonly ImmutableArray<PartKind> Micas = [PartKind.Mica, PartKind.SilverMica];
    private static readonly ImmutableArray<(double, double)> TwoFigurePercents = [(5, 1), (10, 1), (20, 1), (2, 0.5), (1, 0.5)];
    private static readonly ImmutableArray<(double, double)> ThreeFigurePercents =
        [(1, 1), (2, 0.7), (5, 0.5), (0.5, 0.4), (0.25, 0.3), (0.1, 0.3), (10, 0.2)];

    public static ImmutableArray<CodeLayout> All { get; } =
    [
        Band("resistor-band", "resistor, bands", "figure, figure, multiplier, tolerance (none: ±20 %)",
            "Composition and film resistors from the late 1930s on. The first band is the one nearest an end; hold gold or silver to the right. A first band of double width means wire-wound.",
            [
                new("resistor, three bands", Bands(Figure, Figure, Multiplier)) { ImpliedPercent = 20 },
                new("resistor, four bands", Bands(Figure, Figure, Multiplier, Tolerance)),
            ]) with { Unasked = 1, Years = (1936, null), UsualPercents = TwoFigurePercents },
        Band("resistor-5band", "resistor, five bands", "figure, figure, figure, multiplier, tolerance",
            "Precision parts, mostly after 1960: the multiplier is one decade lower than with four bands.",
            [new("resistor, five bands", Bands(Figure, Figure, Figure, Multiplier, Tolerance))])
            with { Unasked = 0.8, Years = (1955, null), UsualPercents = ThreeFigurePercents },
        Band("resistor-6band", "resistor, six bands", "figure, figure, figure, multiplier, tolerance, temperature coefficient",
            "Precision parts; the sixth band is often wider or on the end cap.",
            [new("resistor, six bands", Bands(Figure, Figure, Figure, Multiplier, Tolerance, Tempco))])
            with { Unasked = 0.4, Years = (1960, null), UsualPercents = ThreeFigurePercents },
        Band("resistor-mil-5", "resistor, four bands and a failure-rate band", "figure, figure, multiplier, tolerance, failure rate",
            "Military parts: a gold or silver fourth band tells them from three figures; a white fifth band means solderable leads.",
            [new("resistor, four bands and failure rate", Bands(Figure, Figure, Multiplier, Tolerance, FailureRate))])
            with
            {
                Table = CodeTables.MilitaryResistor, Unasked = 0.3, Asked = 0.4, Years = (1955, null),
                UsualPercents = [(5, 1), (10, 1), (2, 0.1), (1, 0.1)],
                Sign = "Gold or silver as the fourth of five bands marks a two-figure value with a failure-rate band.",
            },
        new()
        {
            Id = "resistor-body-end-dot", Title = "resistor, body-end-dot",
            Order = "body, end, dot or middle band, other end (none: ±20 %)",
            Notes = "About 1930 into the 1940s. Body = first figure, end (tip) = second, dot (spot) or middle band = multiplier, other end = tolerance. A colour that is not seen is the same as the body.",
            Unit = Unit.Ohm, Table = CodeTables.Resistor, Kinds = Resistors, Years = (1928, 1950), Unasked = 0.3, Asked = 0.3,
            Possible = (0.01, 9.95e9), Usual = (1, 22e6), NoneIsBody = true, UsualPercents = TwoFigurePercents,
            Forms =
            [
                new("resistor, body-end-dot", BodyEndDot(false)) { ImpliedPercent = 20 },
                new("resistor, body-end-dot", BodyEndDot(true)),
            ],
        },
        new()
        {
            Id = "resistor-flexible", Title = "flexible wire-wound resistor", Order = "body, heavy thread, fine thread",
            Notes = "Cloth-covered wire-wound cord: body = first figure, heavy thread = second, fine thread = multiplier. Shows no tolerance. From memory.",
            Unit = Unit.Ohm, Table = CodeTables.Resistor, Kinds = Resistors, Years = (1930, 1955), Unasked = 0.02, Asked = 0.02,
            Possible = (0.1, 1e6), Usual = (1, 50e3),
            Forms = [new("flexible resistor, body and threads",
                [new("body", Figure, "first figure"), new("heavy thread", Figure, "second figure"), new("fine thread", Multiplier, "multiplier")])],
        },
        RmaMica("mica-rma-3", "mica, three dots (RMA)", "figure, figure, multiplier",
            "500 V and ±20 % understood. Read along the arrow, or with the maker's name upright.",
            [new("mica, three dots (RMA)", Dots(Figure, Figure, Multiplier)) { ImpliedPercent = 20, ImpliedVolts = 500 }])
            with { Unasked = 0.02 },
        RmaMica("mica-rma-5", "mica, five dots (RMA)", "figure, figure, multiplier, volts (none: 500 V), tolerance (none: ±20 %)",
            "The three-dot code with volts and tolerance, on the face or on the back.",
            [new("mica, five dots (RMA)", Dots(Figure, Figure, Multiplier, Volts, Tolerance))])
            with { Unasked = 0.05 },
        RmaMica("mica-rma-6", "mica, six dots (RMA)", "top row figure, figure, figure; bottom row, read from the right: multiplier, tolerance, volts",
            "Written top left to right, then bottom left to right. The first dot is neither black, white nor silver.",
            [new("mica, six dots (RMA)", SixDots(Figure, Figure, Figure, Volts, Tolerance, Multiplier))])
            with { Unasked = 0.5, NotFirst = [(Colour.Black, "military"), (Colour.White, "EIA")], Sign = "A first dot that is neither black, white nor silver is the RMA code's first figure." },
        ClassedMica("mica-eia-6", "mica, six dots (EIA)", "type (white), figure, figure; bottom row, read from the right: multiplier, tolerance, class",
            "White first dot. The voltage is not marked: take it from the size of the case.", Colour.White)
            with { Sign = "A white first dot marks an EIA mica." },
        ClassedMica("mica-mil-6", "mica, six dots (military)", "type (black), figure, figure; bottom row, read from the right: multiplier, tolerance, class",
            "Black first dot. The arrows in the top row point in the reading direction.", Colour.Black)
            with { Sign = "A black first dot marks a military mica." },
        MilitaryNine(),
        PaperInMicaCase(),
        Button(),
        Ceramic("ceramic-5", "ceramic, five bands or dots", "temperature coefficient, figure, figure, multiplier, tolerance",
            "Tubular or disc (dots clockwise): the coefficient's band is wide or set apart. Tolerance in percent above 10 pF, in picofarads at 10 pF and below.",
            [new("ceramic, five bands or dots", Bands(Tempco, Figure, Figure, Multiplier, Tolerance))])
            with { Unasked = 0.15, Usual = (0.5 * Pico, 1500 * Pico) },
        Ceramic("ceramic-6", "ceramic, six bands or dots", "figure and multiplier of the temperature coefficient, figure, figure, multiplier, tolerance",
            "As with five, with an extended temperature coefficient.",
            [new("ceramic, six bands or dots", Bands(TempcoFigure, TempcoMultiplier, Figure, Figure, Multiplier, Tolerance))])
            with { Unasked = 0.1, Usual = (0.5 * Pico, 4700 * Pico) },
        Ceramic("ceramic-3", "ceramic, three bands or dots", "figure, figure, multiplier",
            "General purpose; ±20 % or a guaranteed minimum, about 500 V (memory).",
            [new("ceramic, three bands or dots", Bands(Figure, Figure, Multiplier))])
            with { Unasked = 0.02, Usual = (10 * Pico, 22000 * Pico), Doubts = ["tolerance not marked: ±20 % or a guaranteed minimum, from memory"] },
        new()
        {
            Id = "paper-tubular", Title = "moulded paper tubular", Order = "figure, figure, multiplier, tolerance (none: ±20 %), then one or two bands for the volts",
            Notes = "Bands are bunched at one end: start there. One voltage band = hundreds of volts; two = the first two figures of 1000 V or more. A wide band or line marks the outside foil.",
            Unit = Unit.Farad, Table = CodeTables.Paper, Kinds = [PartKind.Paper], Years = (1945, 1970), Unasked = 0.15,
            Possible = (10 * Pico, 10e-6), Usual = (470 * Pico, 1e-6), Turned = "read from the other end", Merges = true,
            Sign = "Moulded paper is round: the same colours on a flat dipped body are film.",
            Forms =
            [
                new("moulded paper, one voltage band", Bands(Figure, Figure, Multiplier, Tolerance, Volts)),
                new("moulded paper, two voltage bands", Bands(Figure, Figure, Multiplier, Tolerance, VoltsTens, VoltsUnits)),
            ],
        },
        new()
        {
            Id = "film-polyester", Title = "polyester film, flat dipped", Order = "figure, figure, multiplier, tolerance, volts; from the top, leads down",
            Notes = "1960s. Equal neighbours show as one wide band: count widths.",
            Unit = Unit.Farad, Table = CodeTables.Film, Kinds = [PartKind.Film], Years = (1958, 1985), Unasked = 0.1,
            Possible = (100 * Pico, 22e-6), Usual = (1e-9, 2.2e-6), Merges = true,
            Sign = "Polyester film is flat and dipped: the same colours on a round moulded body are paper.",
            Forms = [new("polyester film, five bands", Bands(Figure, Figure, Multiplier, Tolerance, Volts))],
        },
        new()
        {
            Id = "uk-condenser", Title = "British condenser code", Order = "figure, figure, multiplier, then tolerance and volts, both often left out",
            Notes = "Bands or dots; when they are on two sides the group of three is the value.",
            Unit = Unit.Farad, Table = CodeTables.British, Kinds = [PartKind.Paper, PartKind.Mica, PartKind.SilverMica, PartKind.Ceramic],
            Years = (1935, 1965), Unasked = 0.02, Asked = 0.3,
            Possible = (Pico, 10e-6), Usual = (5 * Pico, 0.5e-6), Turned = "read from the other end",
            UsualPercents = [(5, 1), (10, 1), (2, 1), (1, 0.7), (3, 0.2), (4, 0.2), (6, 0.1), (7, 0.1), (8, 0.1)],
            Forms =
            [
                new("British condenser code", Bands(Figure, Figure, Multiplier)),
                new("British condenser code", Bands(Figure, Figure, Multiplier, Tolerance)),
                new("British condenser code", Bands(Figure, Figure, Multiplier, Tolerance, Volts)),
            ],
        },
        new()
        {
            Id = "capacitor-banded", Title = "capacitor banded like a resistor", Order = "figure, figure, multiplier, tolerance",
            Notes = "Value in picofarads: brown black yellow is 0.1 µF, not 100 kΩ. The shape of the body tells.",
            Unit = Unit.Farad, Table = CodeTables.Resistor, Kinds = [PartKind.Ceramic, PartKind.Paper, PartKind.Film, PartKind.Mica, PartKind.SilverMica],
            Unasked = 0.006, Asked = 0.2, Possible = (Pico, 10e-6), Usual = (10 * Pico, 1e-6), Turned = "read from the other end",
            UsualPercents = TwoFigurePercents, Doubts = ["voltage not marked"],
            Sign = "A capacitor may be banded like a resistor, in picofarads.",
            Forms = [new("capacitor banded like a resistor", Bands(Figure, Figure, Multiplier, Tolerance))],
        },
    ];

    /// <summary>The code of this name, whatever the case; null when there is none.</summary>
    public static CodeLayout? Find(string id) =>
        All.FirstOrDefault(l => string.Equals(l.Id, id.Trim(), StringComparison.OrdinalIgnoreCase));

    private static CodeLayout Band(string id, string title, string order, string notes, ImmutableArray<Arrangement> forms) => new()
    {
        Id = id, Title = title, Order = order, Notes = notes, Forms = forms,
        Unit = Unit.Ohm, Table = CodeTables.Resistor, Kinds = Resistors,
        Possible = (0.01, 9.95e9), Usual = (1, 22e6), Turned = "read from the other end",
    };

    private static CodeLayout RmaMica(string id, string title, string order, string notes, ImmutableArray<Arrangement> forms) => new()
    {
        Id = id, Title = title, Order = order, Notes = notes, Forms = forms,
        Unit = Unit.Farad, Table = CodeTables.RmaMica, Kinds = Micas, Years = (1936, 1955),
        Possible = (0.5 * Pico, 99900 * Pico), Usual = (5 * Pico, 10000 * Pico), Unusual = 0.02,
        UsualPercents = [(5, 1), (10, 1), (20, 1), (2, 1), (1, 0.5), (3, 0.5), (4, 0.2), (6, 0.1), (7, 0.1), (8, 0.1), (9, 0.1)], Turned = "with the part turned half round",
    };

    private static CodeLayout ClassedMica(string id, string title, string order, string notes, Colour type) =>
        RmaMica(id, title, order, "Characteristic (class) instead of volts. " + notes,
            [new(title, SixDots(Role.Type, Figure, Figure, Class, Tolerance, Multiplier))]) with
        {
            Table = CodeTables.ClassedMica, Years = (1942, null), Unasked = 0.5, Types = [(type, 1, null)], ZeroFirst = true,
            Doubts = ["voltage not marked: by the case about 500 V up to 1000 pF (small) or 6200 pF (larger), 300 V above"],
        };

    private static CodeLayout MilitaryNine()
    {
        var six = ClassedMica("mica-mil-9", "mica, nine dots (military)", "six dots as on the military mica; rear: volts, temperature range, vibration",
            "The order of the rear dots is from memory.", Colour.Black);
        return six with
        {
            Notes = "Front as the military six-dot mica; rear: volts, temperature range, vibration. The order of the rear dots is from memory.",
            Unasked = 0.05, Doubts = ["order of the rear dots from memory"], Sign = "A black first dot marks a military mica.",
            Forms = [new("mica, nine dots (military)",
                [.. six.Forms[0].Slots, new("rear 1", Volts, "volts"), new("rear 2", Temperatures, "temperature range"), new("rear 3", Vibration, "vibration")])],
        };
    }

    private static CodeLayout PaperInMicaCase() =>
        ClassedMica("paper-mil-6", "paper in a mica-shaped case, six dots", "type (silver or bare), figure, figure; bottom row, read from the right: multiplier, tolerance, class",
            "", Colour.Silver) with
        {
            Notes = "Looks like a mica, but the first dot is silver or the body's own colour. Paper leaks by now: replace it.",
            Kinds = [PartKind.Paper, PartKind.Mica], Unasked = 0.4, Apart = true, ZeroFirst = false,
            Types =
            [
                (Colour.Silver, 1, null), (Colour.None, 1, null),
                (Colour.Black, 0.06, "only if the black first dot is tarnished silver; above about 0.01 µF in this case it is paper"),
                (Colour.White, 0.03, "only if the maker put a white dot on paper; above about 0.01 µF in this case it is paper"),
            ],
            Possible = (10 * Pico, 1e-6), Usual = (100 * Pico, 0.5e-6), Unusual = 0.1,
            Doubts = ["paper, not mica: treat as leaky", "voltage not marked"],
            Sign = "A silver first dot, or one of the body's colour, marks paper in a mica-shaped case.",
        };

    private static CodeLayout Button() =>
        RmaMica("mica-button", "button mica", "three to five dots round the edge",
            "Readings differ by maker: the code is not certain, measure it. From memory.",
            [
                new("button mica", Dots(Figure, Figure, Multiplier)),
                new("button mica", Dots(Figure, Figure, Multiplier, Tolerance)),
                new("button mica", Dots(Figure, Figure, Figure, Multiplier, Tolerance)),
            ]) with
        {
            Table = CodeTables.ClassedMica, Kinds = [PartKind.SilverMica], Unasked = 0, Asked = 0.2, Apart = true,
            Turned = "read the other way round the edge", Doubts = ["code not certain: measure it"],
        };

    private static CodeLayout Ceramic(string id, string title, string order, string notes, ImmutableArray<Arrangement> forms) => new()
    {
        Id = id, Title = title, Order = order, Notes = notes, Forms = forms,
        Unit = Unit.Farad, Table = CodeTables.Ceramic, Kinds = [PartKind.Ceramic], Years = (1938, 1980),
        Possible = (0.1 * Pico, 220e-9), Usual = (Pico, 22e-9), Turned = "read from the other end",
    };

    private static ImmutableArray<Slot> Bands(params Role[] roles) => Named(roles, n => $"band {n}");
    private static ImmutableArray<Slot> Dots(params Role[] roles) => Named(roles, n => $"dot {n}");
    private static ImmutableArray<Slot> SixDots(params Role[] roles) => Named(roles, n => SixPlaces[n - 1]);

    private static ImmutableArray<Slot> BodyEndDot(bool otherEnd)
    {
        ImmutableArray<Slot> three =
            [new("body", Figure, "first figure"), new("end", Figure, "second figure"), new("dot", Multiplier, "multiplier")];
        return otherEnd ? three.Add(new("other end", Tolerance, "tolerance")) : three;
    }

    private static ImmutableArray<Slot> Named(Role[] roles, Func<int, string> place)
    {
        var figures = 0;
        return [.. roles.Select((role, i) => new Slot(place(i + 1), role, role == Figure ? Ordinal(++figures) + " figure" : Words(role)))];
    }

    private static string Ordinal(int n) => n switch { 1 => "first", 2 => "second", _ => "third" };

    private static string Words(Role role) => role switch
    {
        Role.Type => "type",
        Multiplier => "multiplier",
        Tolerance => "tolerance",
        Volts => "volts",
        VoltsTens => "first figure of the volts",
        VoltsUnits => "second figure of the volts",
        Tempco => "temperature coefficient",
        TempcoFigure => "figure of the temperature coefficient",
        TempcoMultiplier => "multiplier of the temperature coefficient",
        FailureRate => "failure rate",
        Class => "class",
        Temperatures => "temperature range",
        Vibration => "vibration",
        _ => "figure",
    };
}
