using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>Source: the demo sets are checked and in working order as wired (data/demo, invented); nothing in them may be called impossible.</summary>
public class DemoContradictionTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("radio", 0)]
    [InlineData("amp", 0)]
    [InlineData("tv", 1)]
    public void A_good_set_has_no_contradiction_and_few_doubts(string name, int doubts)
    {
        var map = MapStage.Run(DemoBooks.Named(name), DemoBooks.Handbook);
        foreach (var found in map.Contradictions) output.WriteLine($"{found.Weight} {found.Rule} {found.Place}: {found.Sentence}");
        Assert.DoesNotContain(map.Contradictions, c => c.Weight == Weight.Contradiction);
        Assert.InRange(map.Contradictions.Count(c => c.Weight == Weight.Doubt), 0, doubts);
    }
}
