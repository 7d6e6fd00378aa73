using System.Collections.Immutable;

namespace Lugbook.Circuit.Valves;

/// <summary>The texts of the data files of data/valves, read by whoever does input and output.</summary>
/// <param name="Points">Handbook lines, one text a file: tube-points.csv, more-points.csv and what the user adds. Later files add lines, they replace none.</param>
/// <param name="Tubes">tubes.csv.</param>
/// <param name="Rectifiers">rectifier-points.csv.</param>
/// <param name="Spread">tube-spread.csv.</param>
public sealed record ValveTexts(ImmutableArray<string> Points, string Tubes, string Rectifiers, string Spread)
{
    /// <summary>twins.csv: types that behave like another, of other base or heater; empty for none.</summary>
    public string Twins { get; init; } = "";
}
