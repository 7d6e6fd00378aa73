namespace Lugbook.Trade.Markings.Colours;

/// <summary>The colours of the trade's codes, in the order of their figures.</summary>
public enum Colour
{
    /// <summary>No colour there: bare body, faded band.</summary>
    None,
    /// <summary>Black, 0.</summary>
    Black,
    /// <summary>Brown, 1.</summary>
    Brown,
    /// <summary>Red, 2.</summary>
    Red,
    /// <summary>Orange, 3.</summary>
    Orange,
    /// <summary>Yellow, 4.</summary>
    Yellow,
    /// <summary>Green, 5.</summary>
    Green,
    /// <summary>Blue, 6.</summary>
    Blue,
    /// <summary>Violet, also called purple, 7.</summary>
    Violet,
    /// <summary>Grey, 8.</summary>
    Grey,
    /// <summary>White, 9.</summary>
    White,
    /// <summary>Gold: never a figure.</summary>
    Gold,
    /// <summary>Silver: never a figure.</summary>
    Silver,
    /// <summary>Pink: a multiplier only, from 2016 on.</summary>
    Pink,
}

/// <summary>What colours are called and how they are drawn.</summary>
public static class ColourNames
{
    /// <summary>All colours but <see cref="Colour.None"/>, in the order of their figures.</summary>
    public static IReadOnlyList<Colour> All { get; } =
        [Colour.Black, Colour.Brown, Colour.Red, Colour.Orange, Colour.Yellow, Colour.Green, Colour.Blue,
         Colour.Violet, Colour.Grey, Colour.White, Colour.Gold, Colour.Silver, Colour.Pink];

    /// <summary>The name in a sentence and in a marking: "violet"; "none" where there is no colour.</summary>
    public static string Name(this Colour colour) => colour switch
    {
        Colour.None => "none",
        Colour.Black => "black",
        Colour.Brown => "brown",
        Colour.Red => "red",
        Colour.Orange => "orange",
        Colour.Yellow => "yellow",
        Colour.Green => "green",
        Colour.Blue => "blue",
        Colour.Violet => "violet",
        Colour.Grey => "grey",
        Colour.White => "white",
        Colour.Gold => "gold",
        Colour.Silver => "silver",
        Colour.Pink => "pink",
        _ => throw new ArgumentOutOfRangeException(nameof(colour), colour, "Not a colour of the codes."),
    };

    /// <summary>The two letters of IEC 60757: "VT"; empty where there is no colour.</summary>
    public static string LetterCode(this Colour colour) => colour switch
    {
        Colour.None => "",
        Colour.Black => "BK",
        Colour.Brown => "BN",
        Colour.Red => "RD",
        Colour.Orange => "OG",
        Colour.Yellow => "YE",
        Colour.Green => "GN",
        Colour.Blue => "BU",
        Colour.Violet => "VT",
        Colour.Grey => "GY",
        Colour.White => "WH",
        Colour.Gold => "GD",
        Colour.Silver => "SR",
        Colour.Pink => "PK",
        _ => throw new ArgumentOutOfRangeException(nameof(colour), colour, "Not a colour of the codes."),
    };

    /// <summary>A muted, paint-like colour to draw it with: "#6b4a35"; "none" is the buff of a bare body.</summary>
    public static string Hex(this Colour colour) => colour switch
    {
        Colour.None => "#cdbb98",
        Colour.Black => "#26241f",
        Colour.Brown => "#6d4529",
        Colour.Red => "#b2352b",
        Colour.Orange => "#d97a2b",
        Colour.Yellow => "#e2bd3a",
        Colour.Green => "#4b7d4a",
        Colour.Blue => "#36618f",
        Colour.Violet => "#77568c",
        Colour.Grey => "#8b8a85",
        Colour.White => "#f1ece0",
        Colour.Gold => "#ab8a3c",
        Colour.Silver => "#bcbdb9",
        Colour.Pink => "#d893a0",
        _ => throw new ArgumentOutOfRangeException(nameof(colour), colour, "Not a colour of the codes."),
    };
}
