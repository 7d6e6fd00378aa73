using Lugbook.Restoration.Map;

namespace Lugbook.Output;

/// <summary>The warning above an answer that rests on a book which contradicts itself.</summary>
internal static class ContradictionWords
{
    public static string Banner(IReadOnlyList<Contradiction> found) =>
        $"WARNING: {Words.Count(found.Count, "contradiction")} in this book; what is computed from it may be wrong ('lugbook map' shows all):\n" +
        string.Join('\n', found.Select(c => $"  {c.Place}: {c.Sentence}"));
}
