using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Trade;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>The catalogue and limits that ship, and short ways to a choice.</summary>
internal static class Shop
{
    public static Catalogue Catalogue { get; } = Files("catalogue").Aggregate(Lugbook.Restoration.Choose.Catalogue.Empty,
        (c, f) => c.With(Lugbook.Restoration.Choose.Catalogue.Parse(File.ReadAllText(f), Path.GetFileName(f))));

    public static ChoosePolicy Policy { get; } = new()
    {
        Catalogue = Catalogue,
        Cans = NewCan.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "catalogue", "cans", "cans.csv"))),
        RectifierLimits = RectifierLimit.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "valves", "rectifier-points.csv"))),
    };

    // A demo book is asked about many times; the stage is pure, so once is enough.
    private static readonly System.Runtime.CompilerServices.ConditionalWeakTable<Book, ChooseResult> Chosen = [];

    public static ChooseResult Choose(Book book) => Chosen.GetValue(book, b => ChooseStage.Run(MapStage.Run(b, DemoBooks.Handbook), Policy));

    /// <summary>One part without any lug.</summary>
    public static Choice Alone(string kind, double? value, double? volts = null, double? tolerancePercent = 20, double? watts = null, string? note = null) =>
        Choose(Book.Empty("one", "one part") with { Parts = Table<Part>.Of([Part("P1", kind, value, volts, tolerancePercent, watts) with { Note = note }]) }).Choices.Single();

    public static Part Part(string name, string kind, double? value, double? volts = null, double? tolerancePercent = null, double? watts = null, string? a = null, string? b = null, char? plus = null) => new()
    {
        Name = name, KindAsWritten = kind, Value = value, Unit = PartKinds.UnitOf(PartKinds.Of(kind)), RatedVolts = volts, RatedWatts = watts,
        Tolerance = tolerancePercent is { } t ? Tolerance.Percent(t) : null, LeadA = a, LeadB = b, PlusLead = plus,
    };

    private static string[] Files(string folder) => [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "data", folder), "*.csv").Order(StringComparer.Ordinal)];
}
