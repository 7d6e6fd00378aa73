using System.Collections.Immutable;
using Lugbook.Circuit.Valves.Fitting;

namespace Lugbook.Circuit.Valves;

/// <summary>Fits lines that somebody typed, with expectations learned from the library's other types of the class.</summary>
public static class TypedLines
{
    /// <summary>Types and their laws, or what is wrong.</summary>
    /// <param name="Types">One for each type in the text, in its order; empty when anything is wrong.</param>
    /// <param name="Faults">What cannot be read or fitted; empty when all is well.</param>
    public sealed record Fitted(ImmutableArray<FittedValve> Types, ImmutableArray<LineFault> Faults);

    /// <summary>Pure: the same text and library, the same laws. The library's own lines of a type are not mixed with those typed.</summary>
    /// <param name="text">A table as <see cref="HandbookLines.Parse"/> reads it.</param>
    /// <param name="library">Where expectations and spreads come from.</param>
    /// <param name="valveClass">The class of every type; null takes the library's, and of an unknown type what its lines look like.</param>
    public static Fitted Fit(string text, ValveLibrary library, ValveClass? valveClass)
    {
        ArgumentNullException.ThrowIfNull(library);
        var reading = HandbookLines.Parse(text);
        var faults = reading.Faults.ToList();
        if (faults.Count == 0 && reading.Lines.IsEmpty) faults.Add(new(1, "", "", "There is no line to fit.", "Write at least one line below the header: type, plate_v, grid1_v and plate_ma."));
        var types = ImmutableArray.CreateBuilder<FittedValve>();
        foreach (var ofType in reading.Lines.GroupBy(l => l.Type, StringComparer.OrdinalIgnoreCase))
        {
            var sections = ImmutableArray.CreateBuilder<ValveSection>();
            foreach (var lines in ofType.GroupBy(l => l.Section))
            {
                ImmutableArray<HandbookLine> own = [.. lines];
                ValveLibrary.Group group = new(ofType.Key, lines.Key, ClassFor(ofType.Key, lines.Key, own, library, valveClass), own);
                var strangers = own.Where(l => !LineModel.Fits(group.Class, l.Connection)).ToArray();
                faults.AddRange(strangers.Select(l => new LineFault(l.Line, "connection", l.Connection.ToString(),
                    $"This connection does not go with the class {group.Class}.", "Correct the connection, or name another class; a triode section beside a pentode or heptode is connection triode-section.")));
                if (faults.Count == 0 && strangers.Length == 0)
                    sections.Add(new(lines.Key, ValveFit.Of(own, group.Class, library.PriorsFor(group)), null, $"{own.Length} typed line{(own.Length == 1 ? "" : "s")}, as {group.Class}"));
            }
            var (spread, source) = library.SpreadOf(ofType.Key, ofType.Key);
            types.Add(new(ofType.Key, ofType.Key, sections.ToImmutable(), spread, source));
        }
        return new(faults.Count == 0 ? types.ToImmutable() : [], [.. faults.OrderBy(f => f.Line)]);
    }

    private static ValveClass ClassFor(string type, string section, ImmutableArray<HandbookLine> lines, ValveLibrary library, ValveClass? asked)
    {
        // A triode section beside a heptode stays a triode whatever class the valve is said to be of.
        if (asked is { } named && (section != "triode" || named == ValveClass.Triode)) return named;
        return library.Groups.FirstOrDefault(g => g.Section == section && string.Equals(g.Type, type, StringComparison.OrdinalIgnoreCase))?.Class ?? Tube.ClassOf(null, lines);
    }
}
