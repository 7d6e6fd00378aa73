using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Valves;

namespace Lugbook.Circuit.Tests.Valves;

/// <summary>Source: data/valves; types, equivalents and spreads as stated there.</summary>
public class ValveLibraryTests
{
    [Fact]
    public void Every_type_of_the_tube_table_has_a_law_except_gas_regulators()
    {
        var without = Data.Library.Types.Where(t => Data.Library.Find(t)!.Sections.IsEmpty).ToArray();
        Assert.Equal(["OA2", "OB2", "OC3"], without);
    }

    [Theory]
    [InlineData("12AX7A", "12AX7A", "1,2")]
    [InlineData("ecc83", "12AX7A", "1,2")]
    [InlineData("12SK7", "6SK7", "")]
    [InlineData("12SQ7", "6SQ7", ",d1,d2")]
    [InlineData("ECH81", "ECH81", "triode,heptode")]
    [InlineData("EL84", "6BQ5", "")]
    [InlineData("5Y3GT", "5Y3GT", "1,2")]
    [InlineData("35Z5GT", "35Z5GT", "")]
    [InlineData("6AX4GT", "6AX4GT", "")]
    public void A_type_is_found_by_its_name_or_an_equivalents_and_has_its_sections(string asked, string data, string sections)
    {
        var valve = Data.Library.Find(asked)!;
        Assert.Equal((data, sections), (valve.DataOf, string.Join(',', valve.Sections.Select(s => s.Name))));
        Assert.All(valve.Sections, s => Assert.True(s.Fit is null != s.Diode is null));
    }

    /// <summary>Source: none outside; the laws of types that a book does not touch stay the very same, its own types are found, and its lines join those of a known type.</summary>
    [Fact]
    public void A_books_own_lines_are_added_and_leave_all_other_types_as_they_are()
    {
        var own = Data.Library.With("type,plate_v,grid1_v,plate_ma,gm_umho,mu\n9XC7,250,-2,2,1325,70\n6J5,100,0,12,,\n6J5,bad,0,1,,\n", "type,equivalents,class\n9XC7,9XC8,twin-triode\n");
        Assert.Equal(["1", "2"], own.Find("9XC8")!.Sections.Select(s => s.Name));
        Assert.Null(Data.Library.Find("9XC7"));
        Assert.Same(Data.Library.Find("6V6GT")!.Sections[0].Fit, own.Find("6V6GT")!.Sections[0].Fit);
        Assert.Equal(Data.Library.Find("6J5")!.Sections[0].Fit!.Lines.Length + 1, own.Find("6J5")!.Sections[0].Fit!.Lines.Length);
        Assert.Equal(4, Assert.Single(own.Faults).Line);
    }

    [Fact]
    public void An_unknown_type_is_null() => Assert.Null(Data.Library.Find("XYZ99"));

    /// <summary>Source: data/valves/tube-spread.csv: 6V6GT 33 to 59 mA about 45; any other valve 0.66 to 1.34 of the book.</summary>
    [Fact]
    public void The_spread_of_new_valves_is_carried()
    {
        Assert.Equal(26 / 90.0, Data.Library.Find("6V6GT")!.NewSpread, 1e-9);
        Assert.Equal(0.34, Data.Library.Find("6AU6A")!.NewSpread, 1e-9);
        Assert.Equal(0.18, Data.Library.Find("E88CC")!.NewSpread, 1e-9);
    }

    [Fact]
    public void Two_libraries_asked_by_several_threads_in_different_orders_give_the_same_laws()
    {
        ValveTexts texts = new([Data.Text("tube-points.csv")], Data.Text("tubes.csv"), "type,drop_v,drop_ma", "type,quantity,nominal,low,high");
        string[] types = ["12AX7A", "6SL7GT", "ECC85", "6J5"];
        var (a, b) = (ValveLibrary.Of(texts), ValveLibrary.Of(texts));
        var first = types.Select(t => a.Find(t)!.Sections[0].Fit!.Triode).ToArray();
        var second = new TriodeLaw?[types.Length];
        Parallel.For(0, types.Length, k => second[types.Length - 1 - k] = b.Find(types[types.Length - 1 - k])!.Sections[0].Fit!.Triode);
        Assert.Equal(first, second);
    }

    [Fact]
    public void A_type_with_one_line_says_what_rests_on_its_class()
    {
        var one = Data.Library.Find("6SL7GT")!.Sections[0].Fit!;
        Assert.Contains(one.Weak, w => w.StartsWith("Current near cut-off", StringComparison.Ordinal) && w.Contains("the one line", StringComparison.Ordinal));
        Assert.Contains(one.Weak, w => w.Contains("from memory", StringComparison.Ordinal));
        var many = Data.Library.Find("12AU7A")!.Sections[0].Fit!;
        Assert.DoesNotContain(many.Weak, w => w.StartsWith("Current near cut-off", StringComparison.Ordinal));
        // The knee is in no handbook line.
        Assert.Contains(Data.Library.Find("6V6GT")!.Sections[0].Fit!.Weak, w => w.Contains("knee", StringComparison.Ordinal));
    }

    /// <summary>Source: lines made here from a law of our own; the fit must give the currents back, also where no line was.</summary>
    [Fact]
    public void A_fit_finds_the_law_that_made_its_lines()
    {
        var law = new TriodeLaw(40, 8e-4, 1.45, 0.5, 0.1, 0.2 / 40, 2.4e-4, 0.15, 0.15);
        var rows = new List<string> { "type,plate_v,grid1_v,plate_ma,gm_umho,mu,confidence" };
        foreach (var (vp, vg) in ((double, double)[])[(250, -2), (250, -4), (150, -1), (100, 0), (300, -6)])
        {
            var f = law.At(vp, vg);
            rows.Add(FormattableString.Invariant($"X,{vp},{vg},{f.PlateAmperes * 1e3:R},{f.Siemens * 1e6:R},{f.Siemens / f.PlateSiemens:R},verified"));
        }
        var fit = ValveFit.Of(HandbookLines.Parse(string.Join('\n', rows)).Lines, ValveClass.Triode, ClassPriors.Physical);
        Assert.All(fit.Lines.SelectMany(l => l.Figures), f => Assert.InRange(Math.Abs(f.Error), 0, 0.01));
        foreach (var (vp, vg) in ((double, double)[])[(200, -2.5), (60, -0.5), (250, -6)])
            Assert.InRange(fit.Triode!.At(vp, vg).PlateAmperes / law.At(vp, vg).PlateAmperes, 0.97, 1.03);
        Assert.All(fit.Parameters, p => Assert.InRange(p.Spread, 1e-6, 1));
        Assert.Equal(fit.Parameters.Length, fit.Covariance.Length);
    }

    [Fact]
    public void Lines_of_another_kind_of_valve_are_refused_by_name()
    {
        var lines = HandbookLines.Parse("type,plate_v,grid1_v,plate_ma\nX,250,-8,9").Lines;
        var error = Assert.Throws<ArgumentException>(() => ValveFit.Of(lines, ValveClass.Beam, ClassPriors.Physical));
        Assert.Contains("X", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => ValveFit.Of([], ValveClass.Beam, ClassPriors.Physical));
    }
}
