using System.CommandLine;
using Lugbook.Output;
using Lugbook.Restoration.Map;
using Lugbook.Trade.Parts;

namespace Lugbook.Commands;

/// <summary>"map": what is joined to what, and what does not agree?</summary>
internal static class MapCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var json = Shared.Json();
        var command = new BenchWord("map", "What is joined to what, and where does the book contradict itself?",
            "lugbook map data/demo/radio",
            "lugbook map data/demo/amp --json",
            "lugbook map my-set.lugbook")
        { book, json };
        command.SetAction(async (parsed, stop) =>
        {
            var output = parsed.InvocationConfiguration.Output;
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            await output.WriteLineAsync(parsed.GetValue(json) ? Json.Write(MapShape.Of(map)) : Sentences(map));
            return map.Contradictions.Any(c => c.Weight == Weight.Contradiction) ? ExitCode.No : ExitCode.Done;
        });
        return command;
    }

    private static string Sentences(MapResult map)
    {
        var book = map.Book;
        var nodes = new TextTable("node", "lugs", "leads", "valve pins");
        foreach (var node in map.Nodes)
        {
            nodes.Add(node.Name, string.Join(" ", node.Lugs), string.Join(" ", node.Leads.Select(l => l.Part.Name)),
                string.Join(" ", node.Pins.Select(p => $"{p.Valve.Name}:{p.Electrode}")));
        }
        var found = map.Contradictions.Select(c => $"{c.Weight.ToString().ToLowerInvariant(),-13} {c.Place}: {c.Sentence}\n              {c.Remedy}");
        return $"""
            {book.Facts.Title}
            {Words.Count(book.Mounts.Count, "mount")}, {Words.Count(book.Lugs.Count, "lug")}, {Words.Count(book.Wires.Count, "wire")}, {Words.Count(book.Parts.Count, "part")} ({Words.Count(book.Parts.Count(p => p.Kind == PartKind.Valve), "valve")}); {Words.Count(map.Nodes.Length, "node")}

            Chassis  {map.Chassis.Node?.Name ?? "not found"}. {map.Chassis.Evidence}
            Common   {map.Common.Node?.Name ?? "not found"}. {map.Common.Evidence}
            Earth    {map.Earth.Node?.Name ?? "none"}. {map.Earth.Evidence}
            Line     {(map.LineNodes.IsEmpty ? "no node is known to be joined to it" : string.Join(", ", map.LineNodes.Select(n => n.Name)))}

            What does not agree ({map.Contradictions.Length})
            {(map.Contradictions.IsEmpty ? "Nothing contradicts." : string.Join("\n", found))}

            Nodes
            {nodes}
            """;
    }
}
