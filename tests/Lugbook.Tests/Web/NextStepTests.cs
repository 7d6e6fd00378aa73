using Lugbook.Restoration.Prove;
using Lugbook.Tests.Drawing;
using Lugbook.Trade.Readings;
using Lugbook.Web;

namespace Lugbook.Tests.Web;

/// <summary>What a book needs next once its parts are exchanged. Source: common practice, no power before the cold proof.</summary>
public class NextStepTests
{
    [Fact]
    public void After_the_exchange_comes_the_cold_proof_and_after_its_readings_the_first_power()
    {
        var book = DemoBooks.Read("radio");
        Assert.Equal("/prove", NextStep.AfterWork(book).Address);
        var other = new Reading { Name = "C1", Kind = ReadingKind.Ohms, Value = 1e6 };
        Assert.Equal("/prove", NextStep.AfterWork(book with { Readings = book.Readings.Add(other) }).Address);
        var cold = other with { Name = ProveStage.Place, Note = ProveStage.Place };
        var next = NextStep.AfterWork(book with { Readings = book.Readings.Add(cold) });
        Assert.Equal("/wake", next.Address);
        Assert.Contains("No power before", next.Why, StringComparison.Ordinal);
    }
}
