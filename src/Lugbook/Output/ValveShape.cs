using Lugbook.Circuit.Valves;
using Lugbook.Trade.Valves;

namespace Lugbook.Output;

/// <summary>A valve type for programs; docs/json.md.</summary>
internal static class ValveShape
{
    public static object Of(string asked, ValveType? pins, FittedValve? laws) => new
    {
        Asked = asked,
        pins?.Type,
        pins?.Class,
        pins?.Base,
        Pins = pins?.Pinout,
        pins?.HeaterVolts,
        pins?.HeaterAmperes,
        pins?.Limits,
        pins?.Equivalents,
        pins?.Source,
        pins?.Confidence,
        laws?.DataOf,
        laws?.NewSpread,
        laws?.SpreadSource,
        Sections = laws?.Sections.Select(s => new
        {
            s.Name,
            s.Origin,
            s.Diode,
            Parameters = s.Fit?.Parameters,
            Lines = s.Fit?.Lines.Select(l => new
            {
                l.Line.PlateVolts, l.Line.ScreenVolts, l.GridVolts, l.Line.Source,
                Figures = l.Figures.Select(f => new { f.Quantity, f.Given, f.Predicted, ErrorPercent = 100 * f.Error }),
            }),
            s.Fit?.Weak,
        }),
    };
}
