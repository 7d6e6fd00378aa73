using System.CommandLine;
using Lugbook.Drawing;
using Lugbook.Drawing.Raster;
using Lugbook.Drawing.Schematic;
using Lugbook.Restoration.Map;
using Lugbook.Store.Exchange;
using Lugbook.Trade.Parts;

namespace Lugbook.Commands;

/// <summary>"draw": the chassis, to scale, as an SVG picture.</summary>
internal static class DrawCommand
{
    public static Command Create()
    {
        var book = Shared.Book();
        var to = new Option<string>("--out") { Description = "The file to write: .svg, or .png for a picture of the same. Both are to scale, 1 : 1.", Required = true };
        var above = new Option<bool>("--from-above") { Description = "Mirror the drawing: as seen from above." };
        var turn = new Option<int>("--turn") { Description = "Turn by 0, 90, 180 or 270 degrees.", DefaultValueFactory = _ => 0 };
        var stage = new Option<string?>("--stage") { Description = "Draw the schematic of one valve and what is around it instead: V3." };
        var volts = new Option<bool>("--voltages") { Description = "Write the solved volts beside pins and nodes." };
        var dpi = new Option<int>("--dpi") { Description = "Pixels an inch of a .png, 24 to 1200.", DefaultValueFactory = _ => 200 };
        dpi.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 24 or > 1200) result.AddError("--dpi is a number from 24 to 1200.");
        });
        turn.AcceptOnlyFromAmong("0", "90", "180", "270");
        var command = new BenchWord("draw", "Draws the chassis from its list of lugs, to scale, as an SVG or PNG picture.",
            "lugbook draw data/demo/radio --out radio.svg",
            "lugbook draw data/demo/amp --from-above --turn 180 --out amp.svg",
            "lugbook draw data/demo/radio --stage V3 --voltages --out v3.svg",
            "lugbook draw data/demo/radio --out radio.png --dpi 300")
        { book, to, above, turn, stage, volts, dpi };
        command.SetAction(async (parsed, stop) =>
        {
            if (await BookInput.OpenAsync(parsed.GetValue(book)!, parsed.InvocationConfiguration.Error, stop) is not { } opened) return ExitCode.WrongInput;
            var map = MapStage.Run(opened.Book, opened.Data.Handbook);
            var solved = parsed.GetValue(volts) ? opened.Data.Solve(map) : null;
            if (solved?.Reason is { } reason) await parsed.InvocationConfiguration.Error.WriteLineAsync($"Note: no volts are written. {reason}");
            string svg;
            if (parsed.GetValue(stage) is { } wanted)
            {
                if (opened.Book.Parts.Named(wanted) is not { Kind: PartKind.Valve } valve)
                {
                    await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: no valve of this book is called '{wanted}'. Valves: {string.Join(", ", opened.Book.Parts.Where(p => p.Kind == PartKind.Valve).Select(p => p.Name))}.");
                    return ExitCode.WrongInput;
                }
                Func<int, string?> known = solved is null ? _ => null : NodeVolts.Of(solved);
                if (StageDiagram.Draw(map, valve, known, name => $"#{name}") is not { } picture)
                {
                    await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: no electrode of {valve.Name} is known: enter its type and the lugs of its socket.");
                    return ExitCode.No;
                }
                svg = picture.Svg;
            }
            else svg = SvgWriter.Write(ChassisDrawing.Draw(opened.Book, map, DrawingOptions.Default with { Mirror = parsed.GetValue(above), Rotate = (Turn)(parsed.GetValue(turn) / 90), LugNotes = solved is null ? [] : NodeVolts.AtLugs(solved) }));
            if (Path.GetExtension(parsed.GetValue(to)!).Equals(".png", StringComparison.OrdinalIgnoreCase))
            {
                var (png, refusal) = PictureWriter.Png(svg, parsed.GetValue(dpi));
                if (refusal is null) return await Saving.WriteAsync(parsed, parsed.GetValue(to)!, async path => await TableFiles.WriteAsync(path, png, stop));
                await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: {refusal}");
                return ExitCode.WrongInput;
            }
            return await Saving.WriteAsync(parsed, parsed.GetValue(to)!, async path =>
            {
                await File.WriteAllTextAsync(path, PaperSize.Of(svg), stop);
                return [];
            });
        });
        return command;
    }
}
