namespace Lugbook.Trade.Work;

/// <summary>May the old part at a position stay?</summary>
public enum Decision
{
    /// <summary>Nobody has decided.</summary>
    Undecided,
    /// <summary>It goes.</summary>
    Goes,
    /// <summary>It stays.</summary>
    Stays,
    /// <summary>It is to be measured first.</summary>
    MeasureFirst,
}

/// <summary>What was decided and done at one position. <see cref="Row.Name"/> is the part's reference.</summary>
public sealed record PositionWork : Row
{
    /// <summary>The decision.</summary>
    public Decision Decision { get; init; }
    /// <summary>Why, in the user's words.</summary>
    public string? Reason { get; init; }
    /// <summary>What was put in, when the user chose it: "22n 630V film".</summary>
    public string? Replacement { get; init; }
    /// <summary>What the part does in the circuit, when the user says otherwise than the map: "coupling".</summary>
    public string? Role { get; init; }
    /// <summary>True once the exchange is done.</summary>
    public bool Done { get; init; }
    /// <summary>What stopped the exchange, until it is settled; null when nothing did.</summary>
    public string? Problem { get; init; }
    /// <summary>Anything to remember.</summary>
    public string? Note { get; init; }
}
