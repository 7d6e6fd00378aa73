using Lugbook.Trade.Entry;

namespace Lugbook.Trade.Tests.Entry;

/// <summary>Source: our own bench language, docs/quick-entry.md: a letter, a hyphen and a number is a lug.</summary>
public class StripsNotYetEnteredTests
{
    public static TheoryData<char> Letters => [.. "ABCDEFGHJKLMNPQRSTUVWXYZ"];

    [Theory]
    [MemberData(nameof(Letters))]
    public void A_lug_of_a_strip_that_is_not_in_the_book_yet_is_never_put_on_the_mount_at_hand(char strip)
    {
        var book = EntryBatch.Read("mount V1 noval", EntryContext.For(Book.Empty("x", "x"))).AllOrNothing;
        var entered = QuickEntry.Read($"R2 330 1W V1-2 {strip}-3", EntryContext.For(book) with { LastMount = "V1" });
        Assert.Empty(entered.Complaints);
        var part = entered.Apply(book).Parts.Named("R2")!;
        Assert.Equal(["V1-2", $"{strip}-3"], part.Leads.Select(l => l.Lug));
    }
}
