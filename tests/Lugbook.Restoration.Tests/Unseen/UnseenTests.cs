using System.Globalization;
using Lugbook.Restoration.Choose;
using Lugbook.Restoration.Map;
using Lugbook.Restoration.Tests.Choose;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Quantities;
using Lugbook.Trade.Work;

namespace Lugbook.Restoration.Tests.Unseen;

/// <summary>Chassis that the rules were not written on. Books are mapped and solved once.</summary>
public class UnseenTests
{
    public static TheoryData<string> Books => [.. UnseenBooks.Names];

    /// <summary>
    /// Source: volts.csv, worked out by hand and by three-halves laws through one handbook point each, before the books were solved. The bands are wide (about a seventh either way on plates, a fifth on
    /// cathodes and screens); one lug in twenty may lie outside. The superhet's supply was first worked out without the resistance of its windings and came out 30 V too high; those nine bands were worked out again.
    /// </summary>
    [Theory]
    [InlineData("superhet")]
    [InlineData("hifi")]
    [InlineData("tester")]
    public void Solved_volts_lie_where_a_calculation_by_hand_puts_them(string book)
    {
        var solved = UnseenBooks.SolvedOf(book);
        var rows = File.ReadLines(UnseenBooks.PathOf("volts.csv")).Skip(1).Select(l => l.Split(',')).Where(c => c[0] == book)
            .Select(c => (Lug: c[1], Least: Number(c[2]), Most: Number(c[3]), Volts: solved.Volts(c[1]))).ToArray();
        var outside = rows.Where(r => r.Volts < r.Least || r.Volts > r.Most).Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Lug} {r.Volts:0.##} ({r.Least} to {r.Most})")).ToArray();
        Assert.True(rows.Length >= 10);
        Assert.True(outside.Length <= 0.06 * rows.Length, string.Join("; ", outside));
    }

    [Theory]
    [MemberData(nameof(Books))]
    public void Nothing_contradicts_itself_in_a_set_that_is_right(string book) =>
        Assert.DoesNotContain(UnseenBooks.MapOf(book).Contradictions, c => c.Weight is Weight.Contradiction or Weight.Doubt);

    [Theory]
    [InlineData("superhet", 0.92)]
    [InlineData("hifi", 0.92)]
    [InlineData("tester", 0.92)]
    [InlineData("stage", 0.9)]
    [InlineData("phono", 0.9)]
    public void Most_roles_are_what_the_hand_written_table_says(string book, double least)
    {
        var told = RoleTable.Of(UnseenBooks.PathOf("roles.csv"), UnseenBooks.MapOf).Where(t => t.Line.Book == book).ToArray();
        Assert.True(told.Length >= 30);
        Assert.True(told.Count(t => t.Hit) >= least * told.Length, $"{told.Count(t => t.Hit)} of {told.Length}. {RoleTable.Misses(told)}");
    }

    [Fact]
    public void The_capacitor_between_a_line_and_the_chassis_is_of_class_Y()
    {
        foreach (var book in UnseenBooks.Names)
            Assert.Equal(SafetyClass.Y1, Chosen(book).For(book == "stage" ? "C18" : book == "phono" ? "C14" : "C1")!.Requirement.SafetyClass);
    }

    /// <summary>An engineer's bounds: never below the mark; not three times the mark where neither a winding's swing nor the line is near (common practice, no source).</summary>
    [Theory]
    [MemberData(nameof(Books))]
    public void Required_volts_are_neither_too_low_nor_absurd(string book)
    {
        foreach (var choice in Chosen(book).Choices.Where(c => c.Unit == Unit.Farad && c.Requirement.SafetyClass == SafetyClass.None))
        {
            if (choice.Requirement.VoltsAtLeast is not { } volts || choice.OldVolts is not { } mark) continue;
            Assert.True(volts >= mark, $"{choice.Position}: {volts} V for {mark}");
            if (mark >= 100 && choice.Role.Role is not (Role.PlateBypass or Role.Tone)) Assert.True(volts <= 3.2 * mark, $"{choice.Position}: {volts} V for {mark}");
        }
    }

    [Fact]
    public void Every_capacitor_that_goes_has_something_in_its_place()
    {
        foreach (var book in UnseenBooks.Names)
            Assert.All(Chosen(book).Choices.Where(c => c.Unit == Unit.Farad && c.Decision == Decision.Goes), c => Assert.True(c.New is not null, $"{book} {c.Position}"));
    }

    private static readonly Dictionary<string, ChooseResult> Results = UnseenBooks.Names.ToDictionary(n => n, n => ChooseStage.Run(UnseenBooks.MapOf(n), Shop.Policy));
    private static ChooseResult Chosen(string book) => Results[book];
    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
