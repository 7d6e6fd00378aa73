using Lugbook.Drawing.Schematic;
using Lugbook.Restoration.Map;
using Lugbook.Store.Exchange;
using Lugbook.Store.Reference;
using Lugbook.Trade.Parts;
using Lugbook.Trade.Valves;

namespace Lugbook.Tests.Drawing;

/// <summary>A stage diagram is readable: nothing lies on anything, and nothing on the valve's electrodes is missing. Every valve of every demo.</summary>
public class StageDiagramTests
{
    private static readonly string[] Demos = ["radio", "amp", "tv"];
    private static readonly Lazy<Dictionary<string, MapResult>> Maps = new(() =>
    {
        var data = Path.Combine(AppContext.BaseDirectory, "data");
        var handbook = HandbookFiles.ReadAsync(Path.Combine(data, "valves"), CancellationToken.None).GetAwaiter().GetResult();
        return Demos.ToDictionary(d => d, d => MapStage.Run(BookFiles.ReadAsync(Path.Combine(data, "demo", d), CancellationToken.None).GetAwaiter().GetResult().Book!, handbook));
    });

    public static TheoryData<string, string> Valves()
    {
        var data = new TheoryData<string, string>();
        foreach (var book in Demos)
            foreach (var valve in DemoBooks.Read(book).Parts.Where(p => p.Kind == PartKind.Valve)) data.Add(book, valve.Name);
        return data;
    }

    private static (MapResult Map, Part Valve, StagePicture? Picture) Of(string book, string name)
    {
        var map = Maps.Value[book];
        var valve = map.Book.Parts.Named(name)!;
        return (map, valve, StageDiagram.Draw(map, valve, n => $"{100 + n} V", p => $"#{p}"));
    }

    [Theory, MemberData(nameof(Valves))]
    public void Nothing_lies_on_anything_and_nothing_is_missing(string book, string name)
    {
        var (map, valve, picture) = Of(book, name);
        if (picture is null)
        {
            Assert.DoesNotContain(map.Nodes.SelectMany(n => n.Pins), p => p.Valve.Id == valve.Id && p.Has(ElectrodeKind.Plate));
            return;
        }
        for (var i = 0; i < picture.Symbols.Length; i++)
        {
            for (var j = 0; j < i; j++) Assert.False(picture.Symbols[i].Box.Meets(picture.Symbols[j].Box), $"{picture.Symbols[i].Name} lies on {picture.Symbols[j].Name}");
            foreach (var (text, box) in picture.Texts.Where(t => t.Text != "+")) Assert.False(picture.Symbols[i].Box.Meets(box), $"'{text}' lies on {picture.Symbols[i].Name}");
        }
        for (var i = 0; i < picture.Texts.Length; i++)
            for (var j = 0; j < i; j++) Assert.False(picture.Texts[i].Box.Meets(picture.Texts[j].Box), $"'{picture.Texts[i].Text}' lies on '{picture.Texts[j].Text}'");

        var electrodes = map.Nodes.Where(n => n.Pins.Any(p => p.Valve.Id == valve.Id && p.Electrodes.Any(e => e.Kind is ElectrodeKind.Plate or ElectrodeKind.ControlGrid or ElectrodeKind.Screen or ElectrodeKind.Cathode)))
            // A supply feeds the whole set: its name stands at the pin.
            .Where(n => !n.Name.StartsWith("B+", StringComparison.Ordinal)).Where(n => n.Index != map.Common.Node?.Index && n.Index != map.Chassis.Node?.Index && n.Index != map.Earth.Node?.Index);
        var drawn = picture.Symbols.Select(s => s.Name).ToHashSet(StringComparer.Ordinal);
        Assert.All(electrodes.SelectMany(n => n.Leads).Where(l => l.Part.Kind is not (PartKind.Valve or PartKind.Glass)), l => Assert.Contains(l.Part.Name, drawn));
        Assert.Equal(picture.Symbols.Length, drawn.Count);
    }

    [Fact]
    public void The_first_audio_stage_of_the_radio_has_its_load_above_and_its_leak_below()
    {
        var (_, _, picture) = Of("radio", "V3");
        var at = picture!.Symbols.ToDictionary(s => s.Name, s => s.Box.Centre);
        Assert.True(at["R6"].Y < at["C10"].Y && at["C10"].X > 0, "the load stands above the line that leads on to the right");
        Assert.True(at["R5"].X < 0 && at["C8"].X < 0, "the grid's parts are on the left");
        Assert.Contains(picture.Texts, t => t.Text == "grid of V4");
    }
}
