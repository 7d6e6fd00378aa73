namespace Lugbook.Trade.Quantities;

/// <summary>How a value is written.</summary>
public enum NotationStyle
{
    /// <summary>For people at the bench: "4.7 kΩ", "0.047 µF", "4700 pF", "100 µF"; no nanofarads, which no old sheet has.</summary>
    Plain,
    /// <summary>As today's shops write: as <see cref="Plain"/>, with nanofarads: "47 nF", "4.7 nF".</summary>
    Shop,
    /// <summary>IEC 60062, the multiplier in place of the decimal mark: "4k7", "4n7", "100R".</summary>
    LetterCode,
    /// <summary>As on American prints of the time: "47K", "1 MEG", ".047 MFD", "250 MMF", "1/2 W".</summary>
    Old,
    /// <summary>As <see cref="Old"/>, with M for thousand ohms: "47M", "1 MEG".</summary>
    OldThousand,
}
