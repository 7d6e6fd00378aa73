using System.Collections.Immutable;
using Lugbook.Trade.Markings;
using Lugbook.Trade.Parts;

namespace Lugbook.Restoration.Choose;

/// <summary>Which dielectric where. Common practice, no source, unless a standard is named.</summary>
internal static class CapacitorKinds
{
    public static (ImmutableArray<NewKind> Kinds, string Reason) Of(Part part, Role role, SafetyClass safety) => safety switch
    {
        SafetyClass.X1 or SafetyClass.X2 => ([NewKind.SafetyFilm, NewKind.SafetyCeramic], "Made and tested for the line (IEC 60384-14); a film of high DC voltage is not."),
        SafetyClass.Y1 or SafetyClass.Y2 => ([NewKind.SafetyCeramic], "Made and tested to fail open between the line and a hand (IEC 60384-14)."),
        _ => ByRole(part, role),
    };

    private static (ImmutableArray<NewKind>, string) ByRole(Part part, Role role)
    {
        var small = part.Kind is PartKind.Mica or PartKind.SilverMica or PartKind.Ceramic || part.Value < 0.95e-9;
        switch (role)
        {
            case Role.Tuned:
                return ([NewKind.C0G, NewKind.Mica], part.Kind == PartKind.Ceramic
                    ? "Steady and of small loss. If the old ceramic carries an N figure it corrects the coil's drift: take the same figure, or keep it."
                    : "Steady and of small loss; no class 2 ceramic here.");
            case Role.PlateToPlate or Role.Boost:
                return ([NewKind.Polypropylene, NewKind.Mica], "Polypropylene bears the alternating voltage; polyester warms up.");
            case Role.PlateBypass when !small:
                return ([NewKind.Polypropylene, NewKind.Film], "Polypropylene bears the swing of the plate; polyester warms up.");
            case Role.HeaterBypass or Role.Decoupling or Role.ScreenBypass or Role.RfBypass or Role.CathodeBypass when part.Kind == PartKind.Ceramic:
                return ([NewKind.CeramicClass2, NewKind.C0G, NewKind.Mica], "It bypasses radio frequency only: short leads and little inductance count, not the exact value.");
        }
        if (part.Kind == PartKind.Electrolytic || part.Kind == PartKind.Capacitor && part.Value >= 4e-6)
            return role == Role.CathodeBypass
                ? ([NewKind.Electrolytic, NewKind.Film], "Electrolytic for 105 °C; film too where it finds room.")
                : ([NewKind.Electrolytic], "Electrolytic for 105 °C: it outlives an 85 °C one at the same place by years.");
        if (small)
            return role is Role.Coupling or Role.RfBypass or Role.PlateBypass or Role.ControlVoltageFilter or Role.Feedback or Role.Tone
                ? ([NewKind.Mica, NewKind.C0G], "Mica or C0G: no class 2 ceramic where signal passes.")
                : ([NewKind.C0G, NewKind.Mica], "C0G or mica: no class 2 ceramic while its role is not known.");
        return ([NewKind.Film, NewKind.Polypropylene], role switch
        {
            Role.Coupling => "Film leaks nothing to the next grid; no class 2 ceramic, no electrolytic.",
            Role.Tone or Role.Feedback => "Film of narrow tolerance keeps the sound as it was.",
            _ => "Film in place of paper: no leakage, no moisture.",
        });
    }
}
