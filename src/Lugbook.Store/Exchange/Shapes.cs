using System.Collections.Immutable;

namespace Lugbook.Store.Exchange;

/// <summary>The tables of the exchange form, with the headers that people use for their columns.</summary>
/// <remarks>
/// Aliases are common practice in English, German, French, Dutch, Italian and Spanish spreadsheets; no source. They are written in the normal
/// form: lower case, no accents, blanks for dots, dashes and underscores. The meaning of every column: docs/exchange.md.
/// </remarks>
internal static class Shapes
{
    private const string Notes = "note|notes|remark|remarks|comment|comments|description|desc|memo|bemerkung|bemerkungen|anmerkung|kommentar|beschreibung|hinweis|remarque|remarques|commentaire|opmerking|opmerkingen|nota|note s|osservazioni|observaciones|comentario";
    private const string Refs = "reference|ref des|refdes|reference designator|designator|designation|position|pos|component|part|part no|part nr|part number|part ref|circuit ref|symbol|name|item|id|bauteil|bauteilname|bezeichner|bezeichnung|positionsnummer|repere|composant|onderdeel|componente|riferimento|referencia|no|nr|num|number|#";
    private const string Kinds = "type|part type|component type|sort|class|category|art|bauart|bauteilart|typ|genre|soort|tipo";
    private const string Marks = "marking|markings|printed|printed value|as marked|as printed|text|label|legend|aufdruck|beschriftung|marquage|inscription|opdruk|marcatura|marcado";
    private const string Values = "val|nominal|nominal value|value nominal|wert|nennwert|valeur|waarde|valore|valor|value type|value marking|designation|grosse";
    private const string Units = "units|uom|einheit|unite|eenheid|unita|unidad";
    private const string Volts = "rated v|rated volts|rated voltage|volts|voltage|volt|v|working voltage|working volts|wv|wvdc|vdc|v dc|max voltage|max volts|voltage rating|spannung|nennspannung|u|tension|spanning|tensione|voltaje";
    private const string Watts = "rated w|rated watts|rated power|watts|wattage|watt|w|power|power rating|leistung|belastbarkeit|nennleistung|p|puissance|vermogen|potenza|potencia";
    private const string Tols = "tol|tolerance|tol pct|tol percent|tolerance pct|tolerance percent|percent|pct|%|toleranz|tolerantie|tolleranza|tolerancia";
    private const string Lugs = "lug name|terminal|tag|pin|point|solder lug|lug id|lotfahne|lotpunkt|lotose|lotosenleiste|anschluss|cosse|lip|linguetta|terminal id";

    /// <summary>Identity of a row, written only when it is not simply 1, 2, 3, …</summary>
    private static readonly Column RowId = Make("row_id", Measure.Count, "");

    /// <summary>Parts as found.</summary>
    public static TableShape Parts { get; } = new("parts", ["part", "parts list", "partslist", "components", "component list", "bom", "bill of materials", "stuckliste", "bauteile", "teile", "composants", "onderdelen", "componenti", "componentes"],
    [
        Make("ref", Measure.Words, Refs), Make("kind", Measure.Words, Kinds), Make("marked", Measure.Words, Marks),
        Make("value", Measure.Value, Values + "|resistance|capacitance"), Make("unit", Measure.Words, Units), Make("rated_v", Measure.Volts, Volts),
        Make("rated_w", Measure.Watts, Watts), Make("tol_pct", Measure.Percent, Tols),
        Make("lead_a", Measure.Words, "lead a|a|lead 1|lead1|lead a from|end a|end 1|lug a|lug 1|pin 1|from|from lug|terminal 1|terminal a|anschluss 1|anschluss a|draht 1|ende 1|von|de|van|da|start"),
        Make("lead_b", Measure.Words, "lead b|b|lead 2|lead2|lead b to|end b|end 2|lug b|lug 2|pin 2|to|to lug|terminal 2|terminal b|anschluss 2|anschluss b|draht 2|ende 2|nach|bis|vers|naar|a lug|finish"),
        Make("lead_c", Measure.Words, "lead c|c|lead 3|lead3|end c|end 3|lug c|lug 3|pin 3|wiper|slider|terminal 3|terminal c|anschluss 3|anschluss c|schleifer|curseur|loper"),
        Make("plus_lead", Measure.Words, "plus|+|+ lead|plus at|positive|positive lead|polarity|cathode|pluspol|polaritat"),
        Make("group", Measure.Words, "body|can|assembly|gruppe|gehause|groupe|groep|gruppo"),
        Make("code", Measure.Words, "colour code|color code|colours|colors|colour|color|bands|dots|farbcode|farben|farbringe|couleurs|kleurcode"),
        Make("note", Measure.Words, Notes),
        Make("body_x", Measure.Length, "body x mm"), Make("body_y", Measure.Length, "body y mm"), Make("body_turn", Measure.Number, "body turn deg|body angle"),
        Make("leads", Measure.Words, "connections|connected to|connection|between|lugs|terminals|pins|anschlusse|connexions|aansluitingen"),
        Make("rating", Measure.Words, "ratings|rated|nenndaten"),
        RowId,
    ], [["ref"]], "part");

    /// <summary>Lugs, with the mounts that carry them.</summary>
    public static TableShape LugTable { get; } = new("lugs", ["lug", "lug list", "terminals", "tags", "pins", "lotpunkte", "lotfahnen", "cosses", "lippen"],
    [
        Make("lug", Measure.Words, Lugs + "|name|ref|id"), Make("mount", Measure.Words, "strip|socket|carrier|holder|on|mounted on|trager|leiste|fassung|support|drager|body"),
        Make("mount_kind", Measure.Words, "mount kind|mount type|kind|type|kind of mount|strip type|tragerart|art|typ"),
        Make("no", Measure.Count, "number|num|nr|pin no|pin number|lug no|position|pos|nummer|numero|#|pin"),
        Make("function", Measure.Words, "use|purpose|electrode|role|funktion|fonction|functie|funzione|funcion"),
        Make("x_mm", Measure.Length, "x|x mm|x pos|x position|pos x|position x|location x|left right|across"), Make("y_mm", Measure.Length, "y|y mm|y pos|y position|pos y|position y|location y|front rear|depth"),
        Make("note", Measure.Words, Notes), RowId,
    ], [["lug"], ["mount", "no"]], "lug");

    /// <summary>Mounts, only where the lugs do not already tell all about them.</summary>
    public static TableShape Mounts { get; } = new("mounts", ["mount", "mount list"],
        [Make("mount", Measure.Words, "name|ref"), Make("mount_kind", Measure.Words, "mount kind|kind|type"), Make("note", Measure.Words, Notes), RowId], [["mount"]], "mount");

    /// <summary>Wires and bonds.</summary>
    public static TableShape Wires { get; } = new("wires", ["wire", "wire list", "wiring", "connections", "drahte", "verdrahtung", "leitungen", "fils", "cablage", "draden", "fili"],
    [
        Make("wire", Measure.Words, "name|ref|reference|id|no|nr|number|wire no|draht|leitung|fil|draad|filo|#"),
        Make("from", Measure.Words, "from lug|lug from|lug 1|lug a|end a|end 1|a|start|lead 1|lead a|von|de|van|da|source"),
        Make("to", Measure.Words, "to lug|lug to|lug 2|lug b|end b|end 2|b|finish|end|lead 2|lead b|nach|bis|vers|naar|target|dest|destination"),
        Make("kind", Measure.Words, Kinds), Make("colour", Measure.Words, "color|farbe|couleur|kleur|colore"), Make("note", Measure.Words, Notes), RowId,
    ], [["from", "to"]], "wire");

    /// <summary>Voltages to be taken as given.</summary>
    public static TableShape Declared { get; } = new("declared", ["declared volts", "declared voltages", "given", "given volts"],
    [
        Make("lug", Measure.Words, Lugs + "|at|point|name"), Make("volts_dc", Measure.Volts, "volts dc|volts|voltage|v|v dc|vdc|value|spannung|tension|spanning"),
        Make("why", Measure.Words, "reason|because|" + Notes), RowId,
    ], [["lug", "volts_dc"]], "declared voltage");

    /// <summary>The service sheet's chart.</summary>
    public static TableShape Sheet { get; } = new("sheet", ["voltage chart", "voltages", "voltage sheet", "volts", "chart", "service sheet", "spannungen", "tensions"],
    [
        Make("valve", Measure.Words, "tube|valve no|tube no|socket|v|rohre|lampe|buis|valvola|valvula"),
        Make("pin", Measure.Words, "pin no|pin number|no|electrode|stift|broche|pen|piedino"),
        Make("volts", Measure.Volts, "voltage|v|reading|value|spannung|tension|spanning|tensione"),
        Make("kind", Measure.Words, "ac dc|ac or dc|dc ac|type|art"),
        Make("ohms", Measure.Ohms, "ohm|resistance|r|resistance to common|widerstand|resistance to chassis|weerstand|resistenza"),
        Make("note", Measure.Words, Notes), Make("lug", Measure.Words, "at|point|terminal"), RowId,
    ], [["valve", "pin"], ["lug"]], "reading");

    /// <summary>The service sheet's parts list.</summary>
    public static TableShape SheetParts { get; } = new("sheetparts", ["sheet parts", "parts on sheet", "service parts", "maker s parts list"],
        [.. Parts.Columns.Where(c => c.Key is "ref" or "kind" or "marked" or "value" or "unit" or "rated_v" or "rated_w" or "tol_pct" or "note" or "rating"), RowId], [["ref"]], "part of the sheet");

    /// <summary>What was decided and done.</summary>
    public static TableShape Work { get; } = new("work", ["decisions", "jobs", "job list", "to do", "todo"],
    [
        Make("ref", Measure.Words, Refs), Make("decision", Measure.Words, "verdict|action|what to do|keep or replace"), Make("reason", Measure.Words, "why|because"),
        Make("replacement", Measure.Words, "replaced by|new part|fitted|put in"), Make("role", Measure.Words, "role in circuit|function in circuit|duty"), Make("done", Measure.Words, "finished|ready|complete|completed|erledigt|fait|klaar"),
        Make("done_at", Measure.Words, "done when|finished at"), Make("done_step", Measure.Words, "done as step"), Make("problem", Measure.Words, "trouble|stopped by"),
        Make("note", Measure.Words, Notes), RowId,
    ], [["ref"]], "position");

    /// <summary>What was measured.</summary>
    public static TableShape Readings { get; } = new("readings", ["reading", "measurements", "measured", "messwerte", "mesures", "metingen"],
    [
        Make("ref", Measure.Words, Refs + "|lug|at lug"), Make("quantity", Measure.Words, "what|measured|kind|grosse|mesure"), Make("value", Measure.Words, "reading|shows|shown|wert|valeur|waarde|valore|valor"),
        Make("over", Measure.Words, "ol|over range|above"), Make("lifted", Measure.Words, "lead lifted|out|out of circuit|abgelotet"), Make("lifted_part", Measure.Words, "lifted part|with lifted"), Make("reversed", Measure.Words, "leads exchanged|swapped"),
        Make("meter", Measure.Words, "instrument|messgerat"), Make("test_v", Measure.Volts, "test volts|test voltage|at volts"), Make("at", Measure.Words, "time|when|date|datum|zeit"),
        Make("note", Measure.Words, Notes), Make("from_lug", Measure.Words, "red lead on|red on"), Make("to_lug", Measure.Words, "black lead on|black on"), RowId,
    ], [["ref", "value"]], "reading");

    /// <summary>Meters of the user's own, a row for each range.</summary>
    public static TableShape Meters { get; } = new("meters", ["my meters", "own meters", "instruments", "messgerate"],
    [
        Make("meter", Measure.Words, "instrument|name|model|messgerat"), Make("quantity", Measure.Words, "function|what|measures|grosse|mesure"), Make("range", Measure.Words, "full scale|top|range top|bereich|calibre|mid scale"),
        Make("reading_pct", Measure.Number, "reading pct|pct of reading|percent of reading|of reading"), Make("full_scale_pct", Measure.Number, "full scale pct|pct of full scale|percent of full scale|of full scale"),
        Make("digits", Measure.Number, "plus digits|last digits|digit"), Make("counts", Measure.Number, "display counts|steps|count"), Make("test_v", Measure.Volts, "test volts|test voltage|open circuit volts"),
        Make("input_ohms", Measure.Ohms, "input resistance|input|load"), Make("ohms_per_volt", Measure.Number, "ohms per volt|ohms a volt|sensitivity"), Make("hertz", Measure.Number, "frequency|hz|test frequency"),
        Make("note", Measure.Words, Notes), RowId,
    ], [["meter", "quantity", "range"]], "range of a meter") { MustSuit = true };

    /// <summary>Valve types of the user's own; the headers are those of data/valves/pinouts.csv.</summary>
    public static TableShape ValveTypes { get; } = new("valvetypes", ["valve types", "tube types", "own valves"],
    [
        Make("type", Measure.Words, "valve|tube|name|rohre"), Make("equivalents", Measure.Words, "also called|other names"), Make("class", Measure.Words, "sort|kind"), Make("base", Measure.Words, "socket|sockel|culot"),
        Make("pinout", Measure.Words, "pins|base connections|sockelschaltung"), Make("heater_v", Measure.Volts, "heater volts|filament volts|vf"), Make("heater_a", Measure.Number, "heater amperes|heater amps|filament amperes|if"),
        Make("max_plate_v", Measure.Volts, "plate volts max"), Make("max_plate_w", Measure.Watts, "plate watts max|plate dissipation"), Make("max_screen_v", Measure.Volts, "screen volts max"), Make("max_screen_w", Measure.Watts, "screen watts max|screen dissipation"),
        Make("max_cathode_ma", Measure.Number, "cathode ma max"), Make("max_heater_cathode_v", Measure.Volts, "heater cathode volts"), Make("source", Measure.Words, "from|quelle"), Make("note", Measure.Words, Notes), RowId,
    ], [["type", "pinout"]], "valve type") { MustSuit = true };

    /// <summary>Lines of data sheets of the user's own; the headers are those of data/valves/tube-points.csv, and of what "valve fit" takes.</summary>
    public static TableShape ValveLines { get; } = new("valvelines", ["valve lines", "tube lines", "handbook lines"],
    [
        Make("type", Measure.Words, "valve|tube|name|rohre"), Make("plate_v", Measure.Volts, "plate volts|anode volts|va|ua|eb"), Make("screen_v", Measure.Volts, "screen volts|g2 volts|vg2|ug2|ec2"), Make("grid1_v", Measure.Volts, "grid volts|bias|grid v|vg1|ug1|ec1"),
        Make("grid3_v", Measure.Volts, "vg3|ug3"), Make("cathode_ohm", Measure.Ohms, "cathode ohms|cathode resistor|rk"), Make("plate_ma", Measure.Number, "plate current|anode ma|ia|ib"), Make("screen_ma", Measure.Number, "screen current|ig2|ic2"),
        Make("gm_umho", Measure.Number, "gm|transconductance|umho"), Make("rp_ohm", Measure.Ohms, "rp|plate resistance|ri"), Make("mu", Measure.Number, "amplification factor|u"), Make("connection", Measure.Words, "connected|connected as"),
        Make("kind", Measure.Words, "sort of line"), Make("volts_to", Measure.Words, "volts to"), Make("source", Measure.Words, "from|quelle"), Make("confidence", Measure.Words, "sure"), RowId,
    ], [["type", "plate_v"]], "line of a data sheet") { MustSuit = true };

    /// <summary>Photographs; the files are in the folder "photographs", named by their content.</summary>
    public static TableShape Photographs { get; } = new("photographs", ["book photographs"],
    [
        Make("photograph", Measure.Words, "photo|name"), Make("content", Measure.Words, "sha256|sha 256"), Make("media_type", Measure.Words, "media type|mime type"), Make("width_px", Measure.Count, "width"), Make("height_px", Measure.Count, "height"),
        Make("moment", Measure.Words, "when|taken"), Make("place", Measure.Words, "position|mount|of"), Make("caption", Measure.Words, "text|shows|" + Notes), RowId,
    ], [["photograph", "content"]], "photograph") { MustSuit = true };

    /// <summary>Spots in photographs that are lugs.</summary>
    public static TableShape PhotoPins { get; } = new("photopins", ["photo pins"],
    [
        Make("photograph", Measure.Words, "photo"), Make("lug", Measure.Words, "terminal"), Make("x_px", Measure.Number, "x"), Make("y_px", Measure.Number, "y"), Make("only_points", Measure.Words, "not for squaring"), RowId,
    ], [["photograph", "lug", "x_px", "y_px"]], "pin") { MustSuit = true };

    /// <summary>Facts of the set as a whole, a row for each.</summary>
    public static TableShape Facts { get; } = new("book", ["facts", "book facts"],
        [Make("key", Measure.Words, "fact|name|property|item|field"), Make("value", Measure.Words, "is|content|answer|text")], [["key", "value"]], "fact");

    /// <summary>All tables, in the order in which they are read and written.</summary>
    public static ImmutableArray<TableShape> All { get; } = [Facts, Mounts, LugTable, Parts, Wires, Declared, Sheet, SheetParts, Work, Readings, Meters, ValveTypes, ValveLines, Photographs, PhotoPins];

    private static Column Make(string key, Measure measure, string aliases) =>
        new(key, measure, [HeaderWords.Normal(key), .. aliases.Split('|', StringSplitOptions.RemoveEmptyEntries)]);
}
