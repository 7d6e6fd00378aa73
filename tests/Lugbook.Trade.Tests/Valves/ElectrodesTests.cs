using Lugbook.Trade.Valves;

namespace Lugbook.Trade.Tests.Valves;

/// <summary>Source: the trade's electrode letters as the heading of data/valves/tubes.csv defines them.</summary>
public class ElectrodesTests
{
    [Theory]
    [InlineData("g2", "twin-triode", ElectrodeKind.ControlGrid, "2")]
    [InlineData("g2", "pentode", ElectrodeKind.Screen, "")]
    [InlineData("gt1", "twin-triode", ElectrodeKind.ControlGrid, "t1")]
    [InlineData("g3", "pentode", ElectrodeKind.Suppressor, "")]
    [InlineData("g3", "converter", ElectrodeKind.ControlGrid, "")]
    [InlineData("g2g4", "converter", ElectrodeKind.Screen, "")]
    [InlineData("g5", "converter", ElectrodeKind.Suppressor, "")]
    [InlineData("p1", "diode", ElectrodeKind.DiodePlate, "1")]
    [InlineData("p1", "rectifier", ElectrodeKind.Plate, "1")]
    [InlineData("ph", "triode-heptode", ElectrodeKind.Plate, "h")]
    [InlineData("hct", "twin-triode", ElectrodeKind.HeaterTap, "")]
    [InlineData("d3", "triple-diode-triode", ElectrodeKind.DiodePlate, "3")]
    public void Letters_mean_what_the_class_makes_of_them(string letters, string valveClass, ElectrodeKind kind, string section)
    {
        var electrode = Electrodes.Of(letters, valveClass);
        Assert.Equal(kind, electrode?.Kind);
        Assert.Equal(section, electrode?.Section);
    }

    [Theory]
    [InlineData("q")]
    [InlineData("")]
    [InlineData("g9")]
    [InlineData("kk")]
    public void Unknown_letters_are_null(string letters) => Assert.Null(Electrodes.Of(letters, "pentode"));

    [Theory]
    [InlineData("grid 1 (oscillator)", "ControlGrid")]
    [InlineData("grids 2 and 4 (screen)", "Screen")]
    [InlineData("cathode and grid 5", "Cathode,Other")]
    [InlineData("grid 3 (signal)", "ControlGrid")]
    [InlineData("grid 3", "Suppressor")]
    [InlineData("plate, unit 2", "Plate")]
    [InlineData("grid, unit 2", "ControlGrid")]
    [InlineData("cathode, both units", "Cathode")]
    [InlineData("heater tap (pilot lamp)", "HeaterTap")]
    [InlineData("heater centre tap", "HeaterTap")]
    [InlineData("no connection; used here as a B- tie", "NoConnection")]
    [InlineData("shell (metal) / no connection (GT)", "NoConnection")]
    [InlineData("internal connection", "Internal")]
    [InlineData("diode plate 1 (cathode on 7)", "DiodePlate")]
    [InlineData("triode grid", "ControlGrid")]
    [InlineData("triode plate", "Plate")]
    [InlineData("plate (top cap)", "Plate")]
    [InlineData("cathode and beam plates", "Cathode,BeamPlates")]
    [InlineData("filament (B+)", "Filament")]
    [InlineData("control grid", "ControlGrid")]
    [InlineData("screen grid", "Screen")]
    [InlineData("suppressor", "Suppressor")]
    [InlineData("anode", "Plate")]
    [InlineData("wiper", "")]
    [InlineData(null, "")]
    public void Words_on_a_socket_are_read(string? words, string kinds) =>
        Assert.Equal(kinds, string.Join(',', Electrodes.FromWords(words).Select(e => e.Kind).Where(k => k != ElectrodeKind.Shell)));
}
