using Lugbook.Trade.Chassis;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Photographs;
using Lugbook.Trade.Readings;
using Lugbook.Trade.Sheets;
using Lugbook.Trade.Valves;
using Lugbook.Trade.Work;

namespace Lugbook.Trade;

/// <summary>One set's file: everything that was entered, nothing that was computed.</summary>
/// <remarks>Immutable; an edit is a function from book to book. Equality is by content.</remarks>
public sealed record Book
{
    /// <summary>Short name, unique on a shelf: lower-case letters, digits and hyphens.</summary>
    public required string Name { get; init; }
    /// <summary>The set as a whole.</summary>
    public required BookFacts Facts { get; init; }
    /// <summary>What carries lugs.</summary>
    public Table<Mount> Mounts { get; init; } = Table<Mount>.Empty;
    /// <summary>Points to which leads are soldered.</summary>
    public Table<Lug> Lugs { get; init; } = Table<Lug>.Empty;
    /// <summary>Wires and bonds.</summary>
    public Table<Wire> Wires { get; init; } = Table<Wire>.Empty;
    /// <summary>Parts as found.</summary>
    public Table<Part> Parts { get; init; } = Table<Part>.Empty;
    /// <summary>Voltages to be taken as given.</summary>
    public Table<DeclaredVoltage> Declared { get; init; } = Table<DeclaredVoltage>.Empty;
    /// <summary>The service sheet's chart of volts and ohms.</summary>
    public Table<SheetReading> SheetReadings { get; init; } = Table<SheetReading>.Empty;
    /// <summary>The service sheet's parts list.</summary>
    public Table<SheetPart> SheetParts { get; init; } = Table<SheetPart>.Empty;
    /// <summary>What was decided and done at each position.</summary>
    public Table<PositionWork> Work { get; init; } = Table<PositionWork>.Empty;

    /// <summary>What was measured, oldest first.</summary>
    public Table<Reading> Readings { get; init; } = Table<Reading>.Empty;
    /// <summary>Meters of the user's own, range by range.</summary>
    public Table<MeterLine> Meters { get; init; } = Table<MeterLine>.Empty;
    /// <summary>Valve types that the user added.</summary>
    public Table<OwnValve> ValveTypes { get; init; } = Table<OwnValve>.Empty;
    /// <summary>Lines of data sheets that the user typed.</summary>
    public Table<ValveLine> ValveLines { get; init; } = Table<ValveLine>.Empty;
    /// <summary>Photographs, in the order in which they are shown.</summary>
    public Table<Photograph> Photographs { get; init; } = Table<Photograph>.Empty;
    /// <summary>Spots in photographs that are lugs.</summary>
    public Table<PhotoPin> PhotoPins { get; init; } = Table<PhotoPin>.Empty;

    /// <summary>An empty book.</summary>
    public static Book Empty(string name, string title) => new() { Name = name, Facts = new() { Title = title } };
}
