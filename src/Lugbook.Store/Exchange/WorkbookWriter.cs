using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;

namespace Lugbook.Store.Exchange;

/// <summary>Writes tables as a workbook (ECMA-376, SpreadsheetML): a sheet each, the header frozen, numbers as numbers, words as text.</summary>
/// <remarks>
/// Written here rather than by the package that reads workbooks: its XML has a prefix on every element, which some readers do not follow, and its text cells
/// become formulas once edited. Here words are inline strings in cells of text format with the quote prefix. Equal tables give equal bytes.
/// </remarks>
internal static partial class WorkbookWriter
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006/";
    private const string Types = "application/vnd.openxmlformats-officedocument.spreadsheetml.";
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static void Write(IReadOnlyList<WrittenTable> tables, Stream stream)
    {
        using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        var numbers = Enumerable.Range(1, tables.Count).Select(n => n.ToString(CultureInfo.InvariantCulture)).ToList();
        Add(zip, "[Content_Types].xml", xml =>
        {
            xml.WriteStartElement("Types", Package + "content-types");
            Element(xml, "Default", ("Extension", "rels"), ("ContentType", "application/vnd.openxmlformats-package.relationships+xml"));
            Element(xml, "Default", ("Extension", "xml"), ("ContentType", "application/xml"));
            Element(xml, "Override", ("PartName", "/xl/workbook.xml"), ("ContentType", Types + "sheet.main+xml"));
            Element(xml, "Override", ("PartName", "/xl/styles.xml"), ("ContentType", Types + "styles+xml"));
            foreach (var n in numbers) Element(xml, "Override", ("PartName", $"/xl/worksheets/sheet{n}.xml"), ("ContentType", Types + "worksheet+xml"));
        });
        Add(zip, "_rels/.rels", xml =>
        {
            xml.WriteStartElement("Relationships", Package + "relationships");
            Element(xml, "Relationship", ("Id", "rId1"), ("Type", Relations + "/officeDocument"), ("Target", "xl/workbook.xml"));
        });
        Add(zip, "xl/_rels/workbook.xml.rels", xml =>
        {
            xml.WriteStartElement("Relationships", Package + "relationships");
            foreach (var n in numbers) Element(xml, "Relationship", ("Id", $"rId{n}"), ("Type", Relations + "/worksheet"), ("Target", $"worksheets/sheet{n}.xml"));
            Element(xml, "Relationship", ("Id", "rIdStyles"), ("Type", Relations + "/styles"), ("Target", "styles.xml"));
        });
        Add(zip, "xl/workbook.xml", xml =>
        {
            xml.WriteStartElement("workbook", Main);
            xml.WriteAttributeString("xmlns", "r", null, Relations);
            xml.WriteStartElement("sheets", Main);
            for (var i = 0; i < tables.Count; i++)
            {
                xml.WriteStartElement("sheet", Main);
                xml.WriteAttributeString("name", tables[i].Name);
                xml.WriteAttributeString("sheetId", numbers[i]);
                xml.WriteAttributeString("id", Relations, $"rId{numbers[i]}");
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
        });
        Add(zip, "xl/styles.xml", Styles);
        for (var i = 0; i < tables.Count; i++)
        {
            var table = tables[i];
            Add(zip, $"xl/worksheets/sheet{numbers[i]}.xml", xml => Sheet(xml, table));
        }
    }

    /// <summary>Formats: 0 general, 1 text that never becomes a formula, 2 bold text for headers.</summary>
    private static void Styles(XmlWriter xml) => xml.WriteRaw($"""
        <styleSheet xmlns="{Main}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" quotePrefix="1" applyNumberFormat="1"/><xf numFmtId="49" fontId="1" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>
        """);

    private static void Sheet(XmlWriter xml, WrittenTable table)
    {
        xml.WriteStartElement("worksheet", Main);
        xml.WriteStartElement("sheetViews", Main);
        xml.WriteStartElement("sheetView", Main);
        xml.WriteAttributeString("workbookViewId", "0");
        Element(xml, "pane", ("ySplit", "1"), ("topLeftCell", "A2"), ("activePane", "bottomLeft"), ("state", "frozen"));
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteStartElement("sheetData", Main);
        Row(xml, 1, table.Headers.Select(h => new WrittenCell(h)), "2");
        for (var r = 0; r < table.Rows.Length; r++) Row(xml, r + 2, table.Rows[r], "1");
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Row(XmlWriter xml, int number, IEnumerable<WrittenCell> cells, string textStyle)
    {
        xml.WriteStartElement("row", Main);
        xml.WriteAttributeString("r", number.ToString(CultureInfo.InvariantCulture));
        var column = 0;
        foreach (var cell in cells)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"{Letters(column++)}{number}");
            if (cell.Text.Length == 0) continue;
            xml.WriteStartElement("c", Main);
            xml.WriteAttributeString("r", name);
            if (cell.Number is not null) xml.WriteElementString("v", Main, cell.Text);
            else
            {
                xml.WriteAttributeString("s", textStyle);
                xml.WriteAttributeString("t", "inlineStr");
                xml.WriteStartElement("is", Main);
                xml.WriteStartElement("t", Main);
                xml.WriteAttributeString("xml", "space", null, "preserve");
                xml.WriteString(Escaped(cell.Text));
                xml.WriteEndElement();
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    /// <summary>A, B, …, Z, AA, …</summary>
    private static string Letters(int column) => column < 26 ? ((char)('A' + column)).ToString() : Letters(column / 26 - 1) + (char)('A' + column % 26);

    /// <summary>What XML cannot hold or would change is written as _x000D_; a text that looks like that already gets its underscore escaped (ECMA-376 part 1, 22.9.2.19).</summary>
    private static string Escaped(string text)
    {
        var escaped = LooksEscaped().Replace(text, "_x005F_");
        StringBuilder? built = null;
        for (var i = 0; i < escaped.Length; i++)
        {
            var c = escaped[i];
            var pair = char.IsHighSurrogate(c) && i + 1 < escaped.Length && char.IsLowSurrogate(escaped[i + 1]);
            if (c != '\r' && (pair || XmlConvert.IsXmlChar(c)))
            {
                built?.Append(c);
                if (pair) built?.Append(escaped[i + 1]);
                if (pair) i++;
                continue;
            }
            built ??= new StringBuilder(escaped, 0, i, escaped.Length + 16);
            built.Append(CultureInfo.InvariantCulture, $"_x{(int)c:X4}_");
        }
        return built?.ToString() ?? escaped;
    }

    private static void Element(XmlWriter xml, string name, params (string Name, string Value)[] attributes)
    {
        // Without a namespace of its own the element is in that of its parent.
        xml.WriteStartElement(name);
        foreach (var (attribute, value) in attributes) xml.WriteAttributeString(attribute, value);
        xml.WriteEndElement();
    }

    private static void Add(ZipArchive zip, string name, Action<XmlWriter> write)
    {
        var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = NoTime;
        using var stream = entry.Open();
        using var xml = XmlWriter.Create(stream, new() { Encoding = new UTF8Encoding(false), NewLineHandling = NewLineHandling.None });
        xml.WriteStartDocument(standalone: true);
        write(xml);
    }

    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)")]
    private static partial Regex LooksEscaped();
}
