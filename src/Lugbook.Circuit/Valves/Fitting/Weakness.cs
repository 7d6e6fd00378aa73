using System.Collections.Immutable;

namespace Lugbook.Circuit.Valves.Fitting;

/// <summary>Says in words which predictions the lines do not carry.</summary>
internal static class Weakness
{
    // A number counts as told by the lines when they cut its expected spread to seven tenths or less.
    private const double Untold = 0.7;

    public static ImmutableArray<string> Of(ImmutableArray<HandbookLine> lines, ImmutableArray<Expectation> shape, double[] untold)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        var count = lines.Length == 1 ? "the one line given does" : $"the {lines.Length} lines given do";
        foreach (var prediction in shape.Where((_, a) => untold[a] > Untold).Select(e => e.Prediction).Distinct())
            words.Add($"{char.ToUpperInvariant(prediction[0])}{prediction[1..]}: {count} not tell it, so it is what valves of this class do.{Cure(prediction)}");
        if (lines.All(l => !l.Confirmed)) words.Add("All currents: no line was read in a data sheet, all are from memory.");
        return words.ToImmutable();
    }

    private static string Cure(string prediction) => prediction switch
    {
        "current near cut-off" => " A cut-off line would settle it.",
        "screen current" => " A line with the screen current would settle it.",
        "plate resistance" => " A line with the plate resistance would settle it.",
        "remote cut-off: gain at a strong AVC voltage" => " A line with the bias for a small transconductance would settle it.",
        _ => "",
    };
}
