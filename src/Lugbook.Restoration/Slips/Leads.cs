using Lugbook.Circuit.Elements;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Slips;

/// <summary>Moves a lead of a part: the same element with one terminal on another node.</summary>
internal static class Leads
{
    /// <param name="element">The element.</param>
    /// <param name="letter">The lead.</param>
    /// <param name="at">Node of the lead.</param>
    /// <param name="far">Node of the part's other lead, which tells two windings of one transformer apart; null for a control.</param>
    /// <param name="to">Where it goes.</param>
    /// <returns>The element; null when no terminal of it is that lead's.</returns>
    public static Element? Move(Element element, char letter, int at, int? far, int to) => element switch
    {
        Control e => letter switch { 'a' => e with { A = to }, 'b' => e with { B = to }, _ => e with { Slider = to } },
        Transformer e => Winding(e, at, far, to),
        Resistor e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Capacitor e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Inductor e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Switch e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Fuse e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Filament e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Thermistor e => e.A == at ? e with { A = to } : e.B == at ? e with { B = to } : null,
        Diode e => e.Anode == at ? e with { Anode = to } : e.Cathode == at ? e with { Cathode = to } : null,
        _ => null,
    };

    private static Transformer? Winding(Transformer e, int at, int? far, int to)
    {
        for (var k = 0; k < e.Windings.Length; k++)
        {
            var w = e.Windings[k];
            if (w.A == at && w.B == far) return e with { Windings = e.Windings.SetItem(k, w with { A = to }) };
            if (w.B == at && w.A == far) return e with { Windings = e.Windings.SetItem(k, w with { B = to }) };
        }
        return null;
    }

    /// <summary>The part the other way round; null where that changes nothing.</summary>
    public static Element? Turned(Element element, Part part) => element switch
    {
        Capacitor e when part.Kind == PartKind.Electrolytic || part.PlusLead is not null => e with { A = e.B, B = e.A },
        Diode e => e with { Anode = e.Cathode, Cathode = e.Anode },
        Control e => e with { A = e.B, B = e.A },
        _ => null,
    };

    /// <summary>The element with another nominal value; null where it has none that a hand can mistake.</summary>
    public static Element? Valued(Element element, double value) => element switch
    {
        Resistor e => e with { Ohms = value },
        // The loss of an electrolytic goes with its capacitance.
        Capacitor e => e with { Farads = value, SeriesOhms = e.SeriesOhms * e.Farads / value },
        _ => null,
    };

    /// <summary>Nominal value of a fixed resistor or capacitor, Ω or F.</summary>
    public static double? ValueOf(Element element) => element switch { Resistor e => e.Ohms, Capacitor e => e.Farads, _ => null };
}
