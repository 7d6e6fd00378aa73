using Lugbook.Trade.Work;

namespace Lugbook.Output;

/// <summary>A decision as people say it.</summary>
internal static class DecisionWords
{
    public static string Of(Decision decision) => decision switch
    {
        Decision.Goes => "goes",
        Decision.Stays => "stays",
        Decision.MeasureFirst => "measure first",
        _ => "undecided",
    };
}
