using System.Globalization;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry;

/// <summary>Which references are free, and which kind a reference's letter stands for.</summary>
public static class References
{
    /// <summary>The next free reference of a letter: counted up from the last one entered, or from the lowest in use.</summary>
    /// <param name="book">The book so far.</param>
    /// <param name="letters">"R", "C", "CR"; case does not matter.</param>
    /// <param name="after">The last reference entered; ignored unless it has the same letters.</param>
    /// <remarks>R1, R2, R9 in the book: R3 is offered, or R10 straight after R9. R101, R102: R103, because that section of the set counts from 101.</remarks>
    public static string Next(Book book, string letters, string? after = null)
    {
        letters = letters.Trim().ToUpperInvariant();
        var used = book.Parts.Select(p => Reference.Split(p.Name))
            .Where(r => r.Number > 0 && string.Equals(r.Letters, letters, StringComparison.OrdinalIgnoreCase))
            .Select(r => r.Number).ToHashSet();
        var last = after is null ? default : Reference.Split(after);
        var next = string.Equals(last.Letters, letters, StringComparison.OrdinalIgnoreCase) && last.Number > 0 ? last.Number
            : used.Count > 0 ? used.Min() : 1;
        while (used.Contains(next) && next < int.MaxValue) next++;
        return letters + next.ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>The next free section of one body: C12A, then C12B.</summary>
    /// <param name="book">The book so far.</param>
    /// <param name="body">"C12"; a suffix is left out of account.</param>
    public static string NextSection(Book book, string body)
    {
        var stem = Reference.Split(body.Trim().ToUpperInvariant()).Body;
        for (var letter = 'A'; letter <= 'Z'; letter++)
            if (book.Parts.Named(stem + letter) is null) return stem + letter;
        return stem + "AA";
    }

    /// <summary>The next free wire name: W1, W2, …</summary>
    internal static string NextWire(IEnumerable<string> inUse)
    {
        var used = inUse.Select(Reference.Split).Where(r => r.Letters is "W" or "w").Select(r => r.Number).DefaultIfEmpty(0).Max();
        return "W" + (used + 1).ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>The kind that a reference's letters stand for, or null when they say nothing.</summary>
    /// <remarks>Common practice, no source. C and CR need more to tell what exactly they are.</remarks>
    internal static PartKind? KindOf(string reference) => Reference.Split(reference).Letters.ToUpperInvariant() switch
    {
        "R" => PartKind.Resistor,
        "C" => PartKind.Capacitor,
        "RV" or "VR" => PartKind.Control,
        "L" or "T" or "TR" or "CH" or "RFC" or "IFT" or "OT" or "PT" => PartKind.Winding,
        "V" => PartKind.Valve,
        "F" => PartKind.Fuse,
        "S" or "SW" => PartKind.Switch,
        "LM" or "PL" or "LP" or "I" => PartKind.Lamp,
        "SP" or "LS" => PartKind.Speaker,
        "D" or "CR" or "X" => PartKind.CrystalDiode,
        "SE" or "SR" => PartKind.SeleniumRectifier,
        "TH" or "RT" => PartKind.Thermistor,
        "TC" or "CT" or "VC" => PartKind.Trimmer,
        _ => null,
    };

    /// <summary>The letters that a new part of this kind gets.</summary>
    internal static string LettersOf(PartKind kind) => kind switch
    {
        PartKind.Resistor or PartKind.Control or PartKind.Thermistor => "R",
        PartKind.Winding => "L",
        PartKind.Valve => "V",
        PartKind.Fuse => "F",
        PartKind.Lamp => "LM",
        PartKind.Switch => "S",
        PartKind.Speaker => "SP",
        PartKind.SeleniumRectifier or PartKind.SeleniumDiode => "SE",
        PartKind.CrystalDiode or PartKind.SiliconRectifier => "D",
        PartKind.SubUnit or PartKind.Other => "X",
        _ => "C",
    };
}
