using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Choose;

/// <summary>What a part does in the circuit, as far as the joining of lugs tells it for sure.</summary>
public enum Role
{
    /// <summary>The map does not tell.</summary>
    Unknown,
    /// <summary>Across the line, or across part of a series heater string.</summary>
    AcrossLine,
    /// <summary>From the line, or anything joined to it, to what a hand can touch.</summary>
    LineToTouchable,
    /// <summary>In series between line and rectifier of a voltage doubler.</summary>
    Doubler,
    /// <summary>First capacitor after the rectifier.</summary>
    Reservoir,
    /// <summary>Later section of the supply.</summary>
    Filter,
    /// <summary>Decouples a stage fed through a resistor.</summary>
    Decoupling,
    /// <summary>Across a heater.</summary>
    HeaterBypass,
    /// <summary>Across a cathode resistor.</summary>
    CathodeBypass,
    /// <summary>Passes signal from one stage to the next.</summary>
    Coupling,
    /// <summary>Between the plates of two valves or units.</summary>
    PlateToPlate,
    /// <summary>From a plate to common, supply or its own cathode.</summary>
    PlateBypass,
    /// <summary>From a screen to common.</summary>
    ScreenBypass,
    /// <summary>Smooths AVC or another control voltage.</summary>
    ControlVoltageFilter,
    /// <summary>Part of a tuned circuit.</summary>
    Tuned,
    /// <summary>Tone control.</summary>
    Tone,
    /// <summary>Bypasses radio frequency at a detector.</summary>
    RfBypass,
    /// <summary>Stores or filters the boosted supply of the line output stage.</summary>
    Boost,
    /// <summary>From a valve's plate to its own grid.</summary>
    Feedback,
    /// <summary>Cathode to common.</summary>
    CathodeBias,
    /// <summary>Supply to plate.</summary>
    PlateLoad,
    /// <summary>Grid to its return.</summary>
    GridLeak,
    /// <summary>Supply to screen.</summary>
    ScreenDropper,
    /// <summary>Between two sections of the supply.</summary>
    SupplyDropper,
    /// <summary>In series with the line or the heater string.</summary>
    LineSeries,
    /// <summary>Resistor between the line and what a hand can touch.</summary>
    TouchBarrier,
    /// <summary>In series with a grid: stops oscillation, or isolates.</summary>
    GridStopper,
    /// <summary>Across a supply, or one arm of a divider that sets a voltage.</summary>
    Divider,
    /// <summary>Load of a detector.</summary>
    DetectorLoad,
    /// <summary>Sets the time of a sawtooth or pulse generator.</summary>
    Timing,
    /// <summary>Across a winding or a tuned circuit.</summary>
    Damping,
    /// <summary>Across a switch's contacts.</summary>
    ArcSuppression,
    /// <summary>In series with the signal between stages.</summary>
    SignalSeries,
    /// <summary>In the supply's negative return, where it makes a bias.</summary>
    BiasSupply,
    /// <summary>At heaters or lamps.</summary>
    HeaterString,
}

/// <summary>A role with its evidence.</summary>
/// <param name="Role">The role; <see cref="Role.Unknown"/> when the map does not tell.</param>
/// <param name="Evidence">Why, as a sentence; for an unknown role how it is treated.</param>
public sealed record RoleFinding(Role Role, string Evidence)
{
    /// <summary>Does all or part of the line's voltage stand across it? Then a safety class is asked for, whatever its role.</summary>
    public bool IsAcrossLine { get; init; }
    /// <summary>True when the user says so, and not the map.</summary>
    public bool ByUser { get; init; }

    /// <summary>Does the map tell?</summary>
    public bool IsKnown => Role != Role.Unknown;
}

/// <summary>A part from the catalogue.</summary>
public sealed record ChosenPart
{
    /// <summary>The part in words: "22 nF 630 V film".</summary>
    public required string Text { get; init; }
    /// <summary>Name of the catalogue's series.</summary>
    public required string Series { get; init; }
    /// <summary>Kind.</summary>
    public required NewKind Kind { get; init; }
    /// <summary>Unit of the value.</summary>
    public required Unit Unit { get; init; }
    /// <summary>Nominal value.</summary>
    public required double Value { get; init; }
    /// <summary>Rated V DC; for a resistor the working voltage of its type.</summary>
    public double? Volts { get; init; }
    /// <summary>Rated line voltage, V AC, of a safety class part.</summary>
    public double? LineVolts { get; init; }
    /// <summary>Rated W.</summary>
    public double? Watts { get; init; }
    /// <summary>Safety class.</summary>
    public SafetyClass SafetyClass { get; init; }
    /// <summary>Tolerance, percent.</summary>
    public double? TolerancePercent { get; init; }
    /// <summary>Highest working temperature, °C; null when not known.</summary>
    public double? Celsius { get; init; }
    /// <summary>Ripple current at <see cref="RippleHertz"/>, A rms; null when not stated.</summary>
    public double? RippleAmperes { get; init; }
    /// <summary>Frequency of the stated ripple current, Hz; null: 100 or 120 Hz.</summary>
    public double? RippleHertz { get; init; }
    /// <summary>Length of the body, mm; null when not known.</summary>
    public double? BodyMm { get; init; }
    /// <summary>Diameter of the body, of a box its thickness, mm; null when not known.</summary>
    public double? DiameterMm { get; init; }
    /// <summary>Example price, low end, in an unspecified currency unit.</summary>
    public decimal? PriceLow { get; init; }
    /// <summary>Example price, high end.</summary>
    public decimal? PriceHigh { get; init; }
}

/// <summary>What goes in the place of one part, and why.</summary>
public sealed record Choice
{
    /// <summary>Identity of the part in the book's table.</summary>
    public required int PartId { get; init; }
    /// <summary>The part's reference.</summary>
    public required string Position { get; init; }
    /// <summary>Kind of the old part, as written.</summary>
    public required string OldKind { get; init; }
    /// <summary>Marking of the old part.</summary>
    public string? Marked { get; init; }
    /// <summary>Unit of the old value.</summary>
    public required Unit Unit { get; init; }
    /// <summary>Old nominal value; null when not known.</summary>
    public double? OldValue { get; init; }
    /// <summary>Old rated V; null when not known.</summary>
    public double? OldVolts { get; init; }
    /// <summary>Old rated W; null when not known.</summary>
    public double? OldWatts { get; init; }
    /// <summary>The body that it shares with others (a can), or null.</summary>
    public string? Group { get; init; }
    /// <summary>Lugs of its leads, in order.</summary>
    public required ImmutableArray<string> Lugs { get; init; }
    /// <summary>Does it go?</summary>
    public required Decision Decision { get; init; }
    /// <summary>Why.</summary>
    public required string DecisionReason { get; init; }
    /// <summary>True when the user decided, false when the default policy did.</summary>
    public bool DecidedByUser { get; init; }
    /// <summary>What it does in the circuit.</summary>
    public required RoleFinding Role { get; init; }
    /// <summary>What its successor must be; given too when the part stays, so that a later change of mind finds it.</summary>
    public required Requirement Requirement { get; init; }
    /// <summary>The ways to fill it, best first, the others with what is against them; empty when none fits or when the requirement is not complete.</summary>
    public ImmutableArray<Candidate> Candidates { get; init; } = [];
    /// <summary>The single part that is taken; null when a combination is, or nothing.</summary>
    public ChosenPart? Part => Candidates is [{ Parts: [var only] }, ..] ? only : null;
    /// <summary>What its value does to the circuit, computed; null when it does not differ or nothing is solved.</summary>
    public string? Effect { get; init; }
    /// <summary>How the body goes between its lugs, when it does not simply fit; null when it does or is not known.</summary>
    public string? Dressing { get; init; }
    /// <summary>What the user wrote as the replacement, or null.</summary>
    public string? UserReplacement { get; init; }
    /// <summary>What is against <see cref="UserReplacement"/>; null when nothing is.</summary>
    public string? UserReplacementFault { get; init; }
    /// <summary>The part in words that goes in: the user's, unless this is a line position and theirs has not the class; else the catalogue's; null when there is none.</summary>
    public string? New => UserReplacement is not null && (UserReplacementFault is null || Requirement.SafetyClass == SafetyClass.None) ? UserReplacement : Candidates is [var first, ..] ? first.Text : null;
    /// <summary>What differs from the old part and why this one; or why there is none and what nearly fits.</summary>
    public required string Explanation { get; init; }
    /// <summary>What only the user can tell; null when nothing is open.</summary>
    public string? Question { get; init; }
    /// <summary>Touch current of the old part in a Y position, for each line considered.</summary>
    public ImmutableArray<TouchCurrent> OldTouchCurrents { get; init; } = [];
    /// <summary>Touch current of the new part in a Y position, for each line considered.</summary>
    public ImmutableArray<TouchCurrent> NewTouchCurrents { get; init; } = [];
    /// <summary>Dangers that belong to this position.</summary>
    public ImmutableArray<Caution> Cautions { get; init; } = [];
    /// <summary>True once the exchange is done.</summary>
    public bool Done { get; init; }
}

/// <summary>A part of which nothing is chosen here.</summary>
/// <param name="Position">The part's reference.</param>
/// <param name="Kind">Its kind, as written.</param>
/// <param name="Reason">Why not, and what becomes of it.</param>
public sealed record NotChosen(string Position, string Kind, string Reason);

/// <summary>Sections that share one body.</summary>
/// <param name="Group">Name of the body.</param>
/// <param name="Positions">Its sections, in book order.</param>
/// <param name="Sentence">What that means for the work.</param>
public sealed record SharedBody(string Group, ImmutableArray<string> Positions, string Sentence)
{
    /// <summary>The ways with its new sections, best first; empty for anything but a can of electrolytics of which something goes.</summary>
    public ImmutableArray<CanWay> Ways { get; init; } = [];
}

/// <summary>Can the positions on the line be told?</summary>
/// <param name="Known">True when the map shows what is joined to the line.</param>
/// <param name="Sentence">What follows.</param>
/// <param name="Candidates">Positions to check by eye, because they may be on the line: by value, words or missing leads.</param>
public sealed record LineFinding(bool Known, string Sentence, ImmutableArray<string> Candidates);

/// <summary>How crowded a lug is, and how much of it leaves.</summary>
/// <param name="Lug">The lug.</param>
/// <param name="Ends">Part leads and wire ends on it.</param>
/// <param name="Leaving">Part leads on it that go.</param>
public sealed record LugLoad(string Lug, int Ends, int Leaving);

/// <summary>What goes in place of what, position by position.</summary>
public sealed record ChooseResult
{
    /// <summary>One for each fixed capacitor and resistor, in book order.</summary>
    public required ImmutableArray<Choice> Choices { get; init; }
    /// <summary>All other parts, with the reason.</summary>
    public required ImmutableArray<NotChosen> NotChosen { get; init; }
    /// <summary>Cans and other shared bodies.</summary>
    public required ImmutableArray<SharedBody> SharedBodies { get; init; }
    /// <summary>Can the positions on the line be told?</summary>
    public required LineFinding Line { get; init; }
    /// <summary>What all new values together do to the readings; null when nothing is solved.</summary>
    public string? Together { get; init; }
    /// <summary>Why the requirements rest on wiring and practice alone, in a sentence; null when the circuit is solved.</summary>
    public string? Unsolved { get; init; }
    /// <summary>Lugs that something leaves.</summary>
    public required ImmutableArray<LugLoad> LugLoads { get; init; }
    /// <summary>Dangers of the set as a whole.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The choice for a position, or null.</summary>
    public Choice? For(string position) => Choices.FirstOrDefault(c => string.Equals(c.Position, position, StringComparison.OrdinalIgnoreCase));
}
