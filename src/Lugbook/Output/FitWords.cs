using Lugbook.Restoration.Fit;

namespace Lugbook.Output;

/// <summary>A job sheet in words, for pages and commands alike.</summary>
internal static class FitWords
{
    public static string Verdict(LugVerdict verdict) => verdict == LugVerdict.ClearToBareMetal ? "clear to bare metal" : "splice onto short tails";
}
