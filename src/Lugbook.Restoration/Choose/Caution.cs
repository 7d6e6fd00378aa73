namespace Lugbook.Restoration.Choose;

/// <summary>A danger, in one short sentence that stands beside the step it belongs to.</summary>
/// <param name="Id">Stable word for programs: "S-polarity".</param>
/// <param name="Sentence">What to mind.</param>
/// <remarks>Local codes and licensed practice come first; nothing here permits a step.</remarks>
public sealed record Caution(string Id, string Sentence);

/// <summary>The cautions that choosing, ordering and fitting can call for.</summary>
/// <remarks>Facts: the project's safety notes; sentences are ours.</remarks>
internal static class Cautions
{
    public static readonly Caution General = new("S-general", "This work can kill. Local codes come first; leave to a qualified person whatever you are not trained for.");
    public static readonly Caution Discharge = new("S-discharge", "Plug out. Drain every supply capacitor through a resistor and measure it: below 60 V before touching, below 5 V before soldering, and again a minute later.");
    public static readonly Caution LiveChassis = new("S-live-chassis", "No transformer stands between this set and the line: metal in it may be at full line voltage whichever way the plug goes in. Live tests need an isolating transformer.");
    public static readonly Caution Polarity = new("S-polarity", "A reversed electrolytic bursts: check the plus lead before soldering and once more before power.");
    public static readonly Caution Electrolytic = new("S-electrolytic", "Electrolytics may vent at first power: cover, eye protection, limited current.");
    public static readonly Caution LineCapacitors = new("S-line-capacitors", "Only a part with the X or Y class mark goes here, whatever its voltage; the old part had none and its place is no proof that an ordinary one will do.");
    public static readonly Caution LineBleeder = new("S-line-bleeder", "Above 0.1 µF across the line the plug can bite: a bleeder of about 1 MΩ (two in series) belongs across it (from memory).");
    public static readonly Caution Lead = new("S-lead", "Old solder contains lead: ventilate, do not eat, wash hands, collect the dross.");
    public static readonly Caution Rosin = new("S-rosin", "Flux fumes irritate: draw or blow them away.");
    public static readonly Caution Selenium = new("S-selenium", "A failing selenium stack gives off poisonous fumes: keep the iron off it; if it smells, switch off and air the room.");
    public static readonly Caution Pcb = new("S-pcb", "Oil in an old capacitor may be PCB: gloves, catch leaks, do not open, burn or drain it; ask the local authority how to dispose of it.");
    public static readonly Caution Asbestos = new("S-asbestos", "This may contain asbestos: no scraping, sanding or blowing; follow local rules or have it done.");
    public static readonly Caution CrtCharge = new("S-crt-charge", "The picture tube keeps its charge for days: drain the anode to the outer coating through a high resistance, twice.");
    public static readonly Caution CrtImplosion = new("S-crt-implosion", "The picture tube is under vacuum: glasses and gloves, keep tools and bench edge away from the glass.");
    public static readonly Caution Flyback = new("S-flyback", "Line output and boost points carry kilovolt pulses in use: only parts and sleeves made for them, never a common meter.");
    public static readonly Caution Barrier = new("S-barrier", "This part stands between the line and a hand: never below its mark, sound body, leads well apart.");
    public static readonly Caution Cabinet = new("S-cabinet", "Back, knobs and insulating washers are this set's protection: all of them back on when the work is done.");
}
