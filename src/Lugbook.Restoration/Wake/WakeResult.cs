using System.Collections.Immutable;

namespace Lugbook.Restoration.Wake;

/// <summary>What the user has to wake a set with.</summary>
public sealed record WakeEquipment
{
    /// <summary>Limiter lamps, rated W at the line's volts, rising.</summary>
    public ImmutableArray<double> LampWatts { get; init; } = [25, 40, 60, 100, 150];
    /// <summary>A variable transformer is at hand.</summary>
    public bool VariableTransformer { get; init; }
    /// <summary>Rating of the isolating transformer, VA; null when there is none.</summary>
    public double? IsolationVoltAmperes { get; init; }
    /// <summary>The bleeder to drain with, Ω; null for none.</summary>
    public double? BleederOhms { get; init; } = 2200;
    /// <summary>Line today, V; null: what the set was made for.</summary>
    public double? LineVolts { get; init; }
    /// <summary>Healthy sets that the spread is taken from; 8 or more.</summary>
    public int Samples { get; init; } = 24;
}

/// <summary>What is watched while a set wakes.</summary>
/// <param name="Id">"line-a", "set-v", or the lug.</param>
/// <param name="Words">In words: "current from the line".</param>
/// <param name="Unit">"A" or "V".</param>
/// <param name="IsAlternating">Rms of what alternates; false: mean.</param>
/// <param name="Lug">Where the meter's red lead goes; null for the line's current.</param>
public sealed record Watched(string Id, string Words, string Unit, bool IsAlternating, string? Lug);

/// <summary>What a healthy set shows, and where to stop.</summary>
/// <param name="What">What is watched.</param>
/// <param name="Nominal">With every part at its mark.</param>
/// <param name="Low">Lowest of healthy sets: mean less 3.3 standard deviations.</param>
/// <param name="High">Highest.</param>
/// <param name="StopBelow">Switch off below this; null where no serious fault shows that way.</param>
/// <param name="StopAbove">Switch off above this.</param>
/// <param name="Margin">How far the nearest limit stands from the healthy edge, as a share of the healthy spread's half; null without a limit.</param>
/// <param name="Why">Which fault the limits were set against, in a sentence.</param>
public sealed record Expected(Watched What, double Nominal, double Low, double High, double? StopBelow, double? StopAbove, double? Margin, string Why);

/// <summary>A lamp of the user's in series with this set.</summary>
/// <param name="Watts">Its rating, W at the line's volts.</param>
/// <param name="SetVolts">Volts that the warm healthy set gets, V rms.</param>
/// <param name="LineShare">Those over the line's.</param>
/// <param name="SupplyShare">The set's highest supply voltage behind this lamp over that without.</param>
/// <param name="Amperes">Current of the healthy set, A rms.</param>
/// <param name="Glow">The lamp in words.</param>
/// <param name="ShortAmperes">Current when the set is a short, A rms: the lamp's own.</param>
/// <param name="Verdict">"starves", "suits" or "lets much through".</param>
/// <param name="Sentence">Why.</param>
public sealed record LampCase(double Watts, double SetVolts, double LineShare, double SupplyShare, double Amperes, string Glow, double ShortAmperes, LampVerdict Verdict, string Sentence);

/// <summary>Does a lamp suit a set?</summary>
public enum LampVerdict
{
    /// <summary>A healthy set cannot work behind it and looks like a faulty one.</summary>
    Starves,
    /// <summary>A healthy set works behind it, and a fault makes it glow.</summary>
    Suits,
    /// <summary>A healthy set works, but a fault is let to draw much.</summary>
    LetsMuchThrough,
}

/// <summary>A serious fault and what it would show at a stage.</summary>
/// <param name="Words">In words: "C2 shorted".</param>
/// <param name="Position">The part.</param>
/// <param name="Shows">Value of each watched quantity, in their order; empty when it does not settle.</param>
/// <param name="Caught">Does a stop limit catch it here?</param>
public sealed record FaultShown(string Words, string Position, ImmutableArray<double> Shows, bool Caught);

/// <summary>One step of the waking.</summary>
public sealed record WakeStep
{
    /// <summary>From 1.</summary>
    public required int Number { get; init; }
    /// <summary>Its name in a few words.</summary>
    public required string Title { get; init; }
    /// <summary>What to connect and which valves are in.</summary>
    public required string Connect { get; init; }
    /// <summary>What it tells.</summary>
    public required string Purpose { get; init; }
    /// <summary>Lamp in the line, W; null for none.</summary>
    public required double? LampWatts { get; init; }
    /// <summary>The line's volts over today's: below 1 with a variable transformer.</summary>
    public required double LineShare { get; init; }
    /// <summary>Valves that are out.</summary>
    public required ImmutableArray<string> Out { get; init; }
    /// <summary>Wait so long before the numbers count, s.</summary>
    public required double WaitSeconds { get; init; }
    /// <summary>The lamp in words, of a healthy set; null without one.</summary>
    public required string? Glow { get; init; }
    /// <summary>What healthy sets show and where to stop.</summary>
    public required ImmutableArray<Expected> Expected { get; init; }
    /// <summary>Serious faults, and which are caught here.</summary>
    public required ImmutableArray<FaultShown> Faults { get; init; }
    /// <summary>Does somebody qualified or an isolating transformer have to be there?</summary>
    public required string? Needs { get; init; }
    /// <summary>Dangers of this step.</summary>
    public required ImmutableArray<string> Cautions { get; init; }
}

/// <summary>A moment of the warming, healthy.</summary>
/// <param name="Seconds">Since switch-on, s.</param>
/// <param name="Values">Value of each watched quantity, in their order.</param>
/// <param name="HeaterShare">Least and greatest rms volts over rated volts among heaters.</param>
public sealed record CourseMoment(double Seconds, ImmutableArray<double> Values, (double Least, double Greatest) HeaterShare);

/// <summary>What a store of charge does after switch-off.</summary>
/// <param name="Position">The capacitor.</param>
/// <param name="Lug">Where to measure.</param>
/// <param name="StartVolts">At switch-off, V; the worst of loaded and unloaded.</param>
/// <param name="Joules">Energy then, J.</param>
/// <param name="Below60">Seconds until below 60 V, cathodes cold; null: not within an hour.</param>
/// <param name="Below5">Seconds until below 5 V, cathodes cold.</param>
/// <param name="Path">Which parts drain it; or that none does.</param>
/// <param name="BleederBelow5">Seconds until below 5 V through the user's bleeder at this lug; null without one.</param>
/// <param name="BleederPeakWatts">What that bleeder turns to heat at first, W.</param>
public sealed record StoreDrained(string Position, string Lug, double StartVolts, double Joules, double? Below60, double? Below5, string Path, double? BleederBelow5, double? BleederPeakWatts);

/// <summary>How a set is powered for the first time.</summary>
public sealed record WakeResult
{
    /// <summary>Why there is no plan, in a sentence; null when there is.</summary>
    public string? Reason { get; init; }
    /// <summary>Line that it is computed for, V.</summary>
    public double LineVolts { get; init; }
    /// <summary>What is watched.</summary>
    public ImmutableArray<Watched> Watched { get; init; } = [];
    /// <summary>The user's lamps.</summary>
    public ImmutableArray<LampCase> Lamps { get; init; } = [];
    /// <summary>The steps.</summary>
    public ImmutableArray<WakeStep> Steps { get; init; } = [];
    /// <summary>The warming of the first step with all valves, healthy.</summary>
    public ImmutableArray<CourseMoment> Course { get; init; } = [];
    /// <summary>Number of the step that <see cref="Course"/> belongs to; 0 without one.</summary>
    public int CourseStep { get; init; }
    /// <summary>Stores of charge after switch-off.</summary>
    public ImmutableArray<StoreDrained> Stores { get; init; } = [];
    /// <summary>What it rests on and does not hold for.</summary>
    public ImmutableArray<string> Remarks { get; init; } = [];
    /// <summary>Dangers of the whole.</summary>
    public ImmutableArray<string> Cautions { get; init; } = [];
}
