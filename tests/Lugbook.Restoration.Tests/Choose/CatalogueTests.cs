using Lugbook.Restoration.Choose;

namespace Lugbook.Restoration.Tests.Choose;

/// <summary>The catalogue that ships is whole, and a bad row is refused while the good ones stand.</summary>
public class CatalogueTests
{
    private const string Header = "series,kind,class,volts,line_volts,values,from,to,unit,tolerance_pct,watts,celsius,rank,body_min_mm,body_max_mm,price_low,price_high,source\n";

    [Fact]
    public void What_ships_is_read_without_complaint_and_every_row_names_its_source()
    {
        Assert.Empty(Shop.Catalogue.Complaints);
        Assert.True(Shop.Catalogue.Series.Length > 40);
        Assert.All(Shop.Catalogue.Series, s => Assert.NotEmpty(s.Source));
        Assert.All(Shop.Catalogue.Series, s => Assert.NotEmpty(s.Values));
    }

    /// <summary>Source: IEC 60063, E6.</summary>
    [Fact]
    public void A_series_by_name_is_the_published_one()
    {
        var series = Catalogue.Parse(Header + "film 630 V,film,,630,,E6,10,100,nF,10,,85,1,10,20,1,2,test\n").Series.Single();
        Assert.Equal([10e-9, 15e-9, 22e-9, 33e-9, 47e-9, 68e-9, 100e-9], series.Values);
    }

    [Theory]
    [InlineData("x,film,,-630,,E6,10,100,nF,10,,85,1,10,20,1,2,test", "volts")]
    [InlineData("x,film,,630,,E6,100,10,nF,10,,85,1,10,20,1,2,test", "to")]
    [InlineData("x,film,,630,,E7,10,100,nF,10,,85,1,10,20,1,2,test", "values")]
    [InlineData("x,wool,,630,,E6,10,100,nF,10,,85,1,10,20,1,2,test", "kind")]
    [InlineData("x,film,X2,630,305,E6,10,100,nF,10,,85,1,10,20,1,2,test", "class")]
    [InlineData("x,safety film,,630,305,E6,10,100,nF,10,,85,1,10,20,1,2,test", "class")]
    [InlineData("x,safety film,7,630,305,E6,10,100,nF,10,,85,1,10,20,1,2,test", "class")]
    [InlineData("x,safety film,X2,630,,E6,10,100,nF,10,,85,1,10,20,1,2,test", "line_volts")]
    [InlineData("x,film,,630,,E6,10,100,furlong,10,,85,1,10,20,1,2,test", "unit")]
    [InlineData("x,metal film,,350,,E24,10,100,ohm,1,,85,1,10,20,1,2,test", "watts")]
    [InlineData("x,film,,630,,E6,10,100,nF,10,,85,1,10,20,3,2,test", "price_high")]
    [InlineData("x,film,,NaN,,E6,10,100,nF,10,,85,1,10,20,1,2,test", "volts")]
    [InlineData("x,film,,630,,E6,10,100,nF,10,,85,1,10,20,1,2,", "source")]
    public void A_bad_row_is_refused_with_its_line_and_column_and_the_good_one_stands(string row, string column)
    {
        var catalogue = Catalogue.Parse(Header + row + "\ngood,film,,630,,E6,10,100,nF,10,,85,1,10,20,1,2,test\n", "shop.csv");
        Assert.Equal("good", catalogue.Series.Single().Name);
        Assert.Equal($"shop.csv, line 2, {column}", catalogue.Complaints.Single().Place);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\"")]
    [InlineData("a,b\n1,2,3,4\n\"\n")]
    public void Nonsense_is_a_complaint_and_never_an_exception(string text)
    {
        var catalogue = Catalogue.Parse(text);
        Assert.Empty(catalogue.Series);
        Assert.NotEmpty(catalogue.Complaints);
    }

    /// <summary>Source: data/valves/rectifier-points.csv.</summary>
    [Fact]
    public void Rectifier_limits_are_read_in_farads()
    {
        var limit = Shop.Policy.RectifierLimits.Single(l => l.Type == "5Y3GT");
        Assert.Equal(20e-6, limit.MaxInputFarads!.Value, 1e-12);
        Assert.True(limit.IsPowerRectifier);
        Assert.False(Shop.Policy.RectifierLimits.Single(l => l.Type == "6AX4GT").IsPowerRectifier);
    }
}
