using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Tests.Markings.Text;

/// <summary>Source: spellings of British, German, French and Japanese parts and sheets; common practice, no source. Values follow from the words; 1 cm = 1.11265 pF by physics.</summary>
public class EuropeanMarkingsTests
{
    [Theory]
    [InlineData("·05 µF 350V wkg", "0.05 µF@350")]
    [InlineData("0·1 µF. 500 V. D.C. WKG", "0.1 µF@500")]
    [InlineData("0.1 MFD. 350 V.D.C. WKG. AT 71°C", "0.1 µF@350")]
    [InlineData(".01 MFD 1000 V. TEST 350 V. WKG.", "0.01 µF@350")]
    [InlineData("0.1 MFD WKG 350V TEST 750V", "0.1 µF@350")]
    [InlineData("32+32µF 350V", "32 µF@350+32 µF@350")]
    [InlineData("50+50+25 µF 350-350-25 V", "50 µF@350+50 µF@350+25 µF@25")]
    [InlineData("100/200 µF 275 V", "100 µF@275+200 µF@275")]
    [InlineData("8 × 8 µF 450V", "8 µF@450+8 µF@450")]
    [InlineData("2 x 16 µF 450V", "16 µF@450+16 µF@450")]
    [InlineData("470JN", "470 pF ±5 % -750ppm")]
    [InlineData("S.M. 100 pF ±1%", "100 pF ±1 % mica")]
    public void British_capacitors(string marking, string meaning) => Expect.Best(meaning, marking);

    [Theory]
    [InlineData("50 kΩ ½ W", "50 kΩ 0.5W")]
    [InlineData("0·5 MΩ", "500 kΩ")]
    [InlineData("470kΩ 20%", "470 kΩ ±20 %")]
    [InlineData("100,000Ω", "100 kΩ")]
    [InlineData("5W10RJ", "10 Ω ±5 % 5W")]
    [InlineData("5W 10ΩJ", "10 Ω ±5 % 5W")]
    [InlineData("10W4R7K", "4.7 Ω ±10 % 10W")]
    [InlineData("680R 5W w/w", "680 Ω 5W")]
    [InlineData("4Ω7", "4.7 Ω")]
    [InlineData("R005", "0.005 Ω")]
    public void British_resistors(string marking, string meaning) => Expect.Best(meaning, marking);

    [Theory]
    [InlineData("5000 cm", "5563 pF")]
    [InlineData("500 cm 1500 V", "556.3 pF@1500")]
    [InlineData("0,1/250~", "0.1 µF@250 AC")]
    [InlineData("0,47/100", "0.47 µF@100")]
    [InlineData("2 µF 500/1500V", "2 µF@500")]
    [InlineData("0,5 MF 250V=", "0.5 µF@250")]
    [InlineData("1 MF 1000 V Prüfsp.", "1 µF")]
    [InlineData("16µF 350/385 V–", "16 µF@350")]
    [InlineData("5.000 pF", "5000 pF")]
    [InlineData("5 000 pF", "5000 pF")]
    [InlineData("0,022 µF ± 20 %", "0.022 µF ±20 %")]
    [InlineData("22 nF 400 V~", "0.022 µF@400 AC")]
    [InlineData("0.1+2x2500pF 250V~", "0.1 µF@250+2500 pF@250+2500 pF@250 AC")]
    [InlineData("2×50 µF/350 V", "50 µF@350+50 µF@350")]
    [InlineData("50µF 12/15V", "50 µF@12")]
    [InlineData("Elko 100 µF 40 V -10+50%", "100 µF@40 −10 +50 %")]
    [InlineData("TS 500V TE 1500V 0,1 MF", "0.1 µF@500")]
    [InlineData("MKS4 0.1 400", "0.1 µF@400 MKS")]
    [InlineData("KT1800 0.1/160", "0.1 µF@160 KT")]
    [InlineData("KS 120pF 2% 125V", "120 pF@125 ±2 % KS")]
    [InlineData("AC125V .01", "0.01 µF@125 AC")]
    [InlineData("50WV 10μF", "10 µF@50")]
    [InlineData(".0047 µF / 4700 pF", "4700 pF")]
    [InlineData("µ1/250", "0.1 µF@250")]
    [InlineData("1n5/400", "1500 pF@400")]
    [InlineData("22n400", "0.022 µF@400")]
    [InlineData("4n7J630", "4700 pF@630 ±5 %")]
    [InlineData("MKP 0.1 µF X2 275V~ 40/085/21", "0.1 µF@275 AC X2 MKP")]
    [InlineData(".1µFX2 275VAC", "0.1 µF@275 AC X2")]
    [InlineData("X1Y2 2n2 400V~", "2200 pF@400 AC Y2")]
    public void Continental_capacitors(string marking, string meaning) => Expect.Best(meaning, marking);

    [Theory]
    [InlineData("1,5 MΩ", "1.5 MΩ")]
    [InlineData("27 000 Ω", "27 kΩ")]
    [InlineData("50.000 Ω", "50 kΩ")]
    [InlineData("4,7 kΩ 0,5 W", "4.7 kΩ 0.5W")]
    [InlineData("2 Megohm", "2 MΩ")]
    [InlineData("10 Kiloohm", "10 kΩ")]
    [InlineData("4E7", "4.7 Ω")]
    [InlineData("47E", "47 Ω")]
    public void Continental_resistors(string marking, string meaning) => Expect.Best(meaning, marking);

    [Theory]
    [InlineData("2A104K", "0.1 µF@100 ±10 %")]
    [InlineData("2G 104K", "0.1 µF@400 ±10 %")]
    [InlineData("104J 2A", "0.1 µF@100 ±5 %")]
    [InlineData("104K2G", "0.1 µF@400 ±10 %")]
    [InlineData("2W475M", "4.7 µF@450 ±20 %")]
    [InlineData("473j 630", "0.047 µF@630 ±5 %")]
    [InlineData("103M 1KV Z5U", "0.01 µF@1000 ±20 % Z5U")]
    [InlineData("CH 100J", "10 pF ±5 % 0ppm CH")]
    [InlineData("C0G 101J 50V", "100 pF@50 ±5 % 0ppm C0G")]
    [InlineData("100uF 16V 105C", "100 µF@16")]
    [InlineData("10 µF 63V-", "10 µF@63")]
    public void Japanese_and_present_day_capacitors(string marking, string meaning) => Expect.Best(meaning, marking, PartKind.Capacitor);

    /// <summary>Source: Unicode has several characters for one sign; each pair must read alike.</summary>
    [Theory]
    [InlineData(".0033 μF", ".0033 µF")]
    [InlineData("47 kΩ", "47 kΩ")]
    [InlineData("47 kΩ", "47 kohm")]
    [InlineData("100 ω", "100 Ω")]
    [InlineData("½ W 470", "1/2W 470")]
    [InlineData("1½ MEG", "1.5 MEG")]
    [InlineData("47 K 1/2 W", "47 K 1/2 W")]
    [InlineData(".02 MFD – 400 V", ".02 MFD - 400 V")]
    [InlineData("8 × .1 MFD", "8 x .1 MFD")]
    [InlineData("27’000 Ω", "27000 Ω")]
    [InlineData("．０２ＭＦＤ４００Ｖ", ".02MFD400V")]
    [InlineData("0.1㎌ 400V", "0.1µF 400V")]
    [InlineData("47㏀", "47kΩ")]
    [InlineData("250 V∼ .1 MFD", "250 V~ .1 MFD")]
    [InlineData("“.05 MFD” 400V", ".05 MFD 400V")]
    [InlineData(".05\u200B MFD\u00AD 400V", ".05 MFD 400V")]
    [InlineData("10 ± 5 % pF", "10 +/- 5 % pF")]
    public void Typographic_forms_read_like_the_plain_ones(string typographic, string plain)
    {
        var wanted = Lugbook.Trade.Markings.TextMarking.Read(plain);
        var read = Lugbook.Trade.Markings.TextMarking.Read(typographic);
        Assert.Equal(wanted.Complaint is null, read.Complaint is null);
        Assert.Equal(wanted.Meanings.Select(Expect.Line), read.Meanings.Select(Expect.Line));
    }
}
