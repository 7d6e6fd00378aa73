using Lugbook.Trade.Parts;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Text;

namespace Lugbook.Trade.Entry.Lines;

/// <summary>Which lead of a part a note speaks of.</summary>
internal enum LeadRole { None, A, B, Wiper, Plus, Minus }

/// <summary>A lug that a note names.</summary>
/// <param name="Lug">Its name as the book has it, or would have it.</param>
/// <param name="Mount">Name of its mount.</param>
/// <param name="No">Its number, or null when it has none.</param>
/// <param name="At">Where the note names it.</param>
/// <param name="End">Index after it.</param>
internal sealed record LeadMention(string Lug, string Mount, int? No, int At, int End)
{
    /// <summary>Which lead is on it.</summary>
    public LeadRole Role { get; set; }
    /// <summary>"from" stood before it: in a move, where the lead was.</summary>
    public bool IsFrom { get; init; }
    /// <summary>A comma stands after it.</summary>
    public bool CommaAfter { get; init; }
}

/// <summary>What a note gives as a value.</summary>
/// <param name="Text">The text for the marking reader.</param>
/// <param name="Unit">The unit that was written; none for a bare number or a code.</param>
/// <param name="Number">The figure, when it is one.</param>
/// <param name="At">Where it stands.</param>
/// <param name="End">Index after it.</param>
internal sealed record ValueMark(string Text, UnitWord Unit, double? Number, int At, int End);

/// <summary>A number without a unit: a value, volts, watts or a lug of the last mount.</summary>
/// <param name="Number">The figure.</param>
/// <param name="Text">As written.</param>
/// <param name="Mount">The mount that was meant when it was written; null for none so far.</param>
/// <param name="LugHint">Words round it say that it is a lug.</param>
/// <param name="At">Where it stands.</param>
/// <param name="End">Index after it.</param>
internal sealed record BareNumber(double Number, string Text, string? Mount, bool LugHint, int At, int End)
{
    /// <summary>Can it be a lug's number?</summary>
    public bool IsCount => Number is >= 1 and <= 99 && Number == Math.Floor(Number);
}

/// <summary>Numbers joined by dashes or strokes: 20/25, 20-20-20, .02-400.</summary>
internal sealed record JoinedNumbers(double[] Numbers, string Text, UnitWord Unit, string? Mount, int At, int End);

/// <summary>A rating with its place in the note.</summary>
internal readonly record struct Placed<T>(T Value, int At, int End);

/// <summary>What a bench note says, word by word, before it is held against the book.</summary>
internal sealed class BenchNote
{
    public required string Line { get; init; }
    public string? Reference { get; set; }
    public int ReferenceAt { get; set; }
    public string? KindWord { get; set; }
    public int KindAt { get; set; }
    public List<ValueMark> Values { get; } = [];
    public Placed<string>? Inductance { get; set; }
    public List<BareNumber> Bare { get; } = [];
    public List<JoinedNumbers> Joined { get; } = [];
    public Placed<double>? Volts { get; set; }
    public string? SectionVolts { get; set; }
    public bool VoltsAreAc { get; set; }
    public Placed<double>? Watts { get; set; }
    public Placed<double>? Amperes { get; set; }
    public Placed<Tolerance>? Tolerance { get; set; }
    public List<LeadMention> Leads { get; } = [];
    /// <summary>A role without a lug: the lead on the lug of "all leads on this lug".</summary>
    public LeadRole LooseRole { get; set; }
    public List<string> Colours { get; } = [];
    /// <summary>Where the colours stand.</summary>
    public (int At, int End) ColoursPlace { get; set; }
    public Placed<string>? SameAs { get; set; }
    public Placed<string>? TypeMark { get; set; }
    public Placed<string>? Ground { get; set; }
    public List<(string Text, int At)> Remarks { get; } = [];
    /// <summary>Stretches of the line that are the part's marking.</summary>
    public List<(int At, int End)> Marking { get; } = [];
    public List<string> Assumed { get; } = [];
    public List<Complaint> Complaints { get; } = [];
    /// <summary>Words that change what the book has: "moved", "value", "now".</summary>
    public bool Forces { get; set; }
    /// <summary>A ? stands where the value would: numbers that follow are ratings and lugs.</summary>
    public bool ValueIsOpen { get; set; }
    public bool Moves { get; set; }
    /// <summary>"change C7 …": only for a part that the book has.</summary>
    public bool Changes { get; set; }
    /// <summary>A safety class is marked: X2, Y2.</summary>
    public bool HasSafetyClass { get; set; }
    public Chassis.Templates.MountTemplate? Socket { get; set; }
    public string? LastMount { get; set; }
    /// <summary>True when a lead's role stands between two lugs and may belong to either.</summary>
    public bool RoleIsUnclear { get; set; }

    public PartKind? WrittenKind => KindWord is null ? null : PartKinds.Of(KindWord);

    public void Complain(int at, string problem, string remedy) => Complaints.Add(new("the bench note", Line, Math.Clamp(at, 0, Line.Length), problem, remedy));
}
