using System.Collections.Immutable;

namespace Lugbook.Store.Shelves;

/// <summary>All papers of a bench at one moment.</summary>
/// <param name="Papers">Text by name; names are compared exactly.</param>
/// <param name="UndoWhat">What an undo would take back; null when there is nothing.</param>
public sealed record BenchPapers(ImmutableDictionary<string, string> Papers, string? UndoWhat)
{
    /// <summary>A paper, or null.</summary>
    public string? this[string name] => Papers.GetValueOrDefault(name);
}

/// <summary>What belongs to the bench and to no single book: the drawer, suppliers' lists, what is on order. Each is a text; what it means, the caller knows.</summary>
/// <remarks>Stored as books are: one transaction an edit, before it is acknowledged. The last hundred edits can be taken back, also after a restart.</remarks>
public interface IBenchPapers
{
    /// <summary>Raised after an edit or undo is stored. Handlers must be quick and must not throw.</summary>
    event Action? PapersChanged;
    /// <summary>The papers as they are stored now.</summary>
    Task<BenchPapers> PapersAsync(CancellationToken stop);
    /// <summary>Applies an edit to the newest papers and stores it; several papers change together or not at all. An edit that changes nothing leaves no trace.</summary>
    Task<BenchPapers> EditPapersAsync(string who, string what, Func<ImmutableDictionary<string, string>, ImmutableDictionary<string, string>> edit, CancellationToken stop);
    /// <summary>Takes back the last edit; when there is none, returns the papers as they are.</summary>
    Task<BenchPapers> UndoPapersAsync(CancellationToken stop);
}
