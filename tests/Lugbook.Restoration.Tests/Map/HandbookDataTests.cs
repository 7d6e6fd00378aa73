using Lugbook.Trade.Valves;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>Source: internal consistency of data/valves (tubes.csv and pinouts.csv); pin counts of the bases are the bases' definitions.</summary>
public class HandbookDataTests
{
    private static ValveHandbook Handbook => DemoBooks.Handbook;

    [Theory]
    [InlineData("12SA7GT 12SK7GT 12SQ7GT 50L6GT 35Z5GT 6SC7 6SJ7 6V6GT 5Y3GT 3CB6 3AU6 5T8 5AQ5 12BY7A 6SN7GTB 12BH7A 12BQ6GTB 12AX4GTA 1B3GT 14HP4")]
    [InlineData("6C6 6D6 6K7 6J7 6A8 6Q7 6BE6 12BE6 6AL5 6U8 EL84 EF86 ECL82 EZ81 5V4 5V4G 80 6K6GT 6H6 12J5 7A7 35A5 12X4 6SA7GT 12AX7 ECC82 6SL7 6L6 6BQ5 35W4 50C5 12AT6 12BA6")]
    public void The_handbook_has_the_common_types(string types) =>
        Assert.All(types.Split(' '), t => Assert.NotNull(Handbook.Find(t)));

    [Fact]
    public void Every_pin_is_on_its_base_and_every_valve_has_what_its_class_needs()
    {
        var pins = new Dictionary<string, int> { ["octal"] = 8, ["loctal"] = 8, ["noval"] = 9, ["7-pin miniature"] = 7, ["duodecal"] = 12, ["4-pin"] = 4, ["5-pin"] = 5, ["6-pin"] = 6 };
        foreach (var type in Handbook.Types)
        {
            Assert.True(pins.TryGetValue(type.Base, out var most), $"{type.Type}: base {type.Base}");
            foreach (var pin in type.Pinout.Keys.Where(p => p != "cap")) Assert.InRange(int.Parse(pin, System.Globalization.CultureInfo.InvariantCulture), 1, most);
            var kinds = type.Pinout.Values.SelectMany(v => v).Select(l => Electrodes.Of(l, type.Class)!.Value.Kind).ToArray();
            Assert.True(kinds.Contains(ElectrodeKind.Plate) || kinds.Contains(ElectrodeKind.DiodePlate), $"{type.Type} has no plate");
            Assert.True(kinds.Contains(ElectrodeKind.Cathode) || kinds.Contains(ElectrodeKind.Filament), $"{type.Type} has no cathode");
            if (type.Class is not ("regulator" or "rectifier")) Assert.True(kinds.Count(k => k is ElectrodeKind.Heater or ElectrodeKind.Filament) == 2, $"{type.Type}: heater pins");
            if (type.Class is "pentode" or "beam" or "converter") Assert.Contains(ElectrodeKind.Screen, kinds);
            Assert.False(string.IsNullOrWhiteSpace(type.Source));
            Assert.Contains(type.Confidence, new[] { "verified", "memory" });
        }
    }

    [Fact]
    public void A_line_of_one_file_does_not_contradict_one_of_the_other()
    {
        foreach (var same in Handbook.Types.GroupBy(t => t.Type, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
            foreach (var other in same.Skip(1))
            {
                Assert.Equal(same.First().HeaterVolts, other.HeaterVolts);
                Assert.Equal(Pins(same.First()), Pins(other));
            }
        static string Pins(ValveType type) => string.Join(';', type.Pinout.Where(p => !p.Value.All(l => l is "nc" or "ic" or "shell")).Select(p => $"{p.Key}={string.Join(',', p.Value)}"));
    }
}
