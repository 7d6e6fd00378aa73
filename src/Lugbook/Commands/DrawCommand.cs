using System.CommandLine;
using Lugbook.Drawing;
using Lugbook.Restoration.Map;

namespace Lugbook.Commands;

/// <summary>"draw": the chassis, to scale, as an SVG picture.</summary>
internal static class DrawCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var to = new Option<string>("--out") { Description = "The SVG file to write.", Required = true };
        var above = new Option<bool>("--from-above") { Description = "Mirror the drawing: as seen from above." };
        var turn = new Option<int>("--turn") { Description = "Turn by 0, 90, 180 or 270 degrees.", DefaultValueFactory = _ => 0 };
        turn.AcceptOnlyFromAmong("0", "90", "180", "270");
        var command = new BenchWord("draw", "Draws the chassis from its list of lugs, to scale, as an SVG picture.",
            "lugbook draw data/demo/radio --out radio.svg",
            "lugbook draw data/demo/amp --from-above --turn 180 --out amp.svg")
        { book, to, above, turn };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var scene = ChassisDrawing.Draw(opened.Book, MapStage.Run(opened.Book, opened.Data.Handbook),
                DrawingOptions.Default with { Mirror = parsed.GetValue(above), Rotate = (Turn)(parsed.GetValue(turn) / 90) });
            return await Saving.WriteAsync(parsed, parsed.GetValue(to)!, async path =>
            {
                await File.WriteAllTextAsync(path, SvgWriter.Write(scene), stop);
                return [];
            });
        });
        return command;
    }
}
