using System.CommandLine;
using Lugbook.Circuit.Valves;
using Lugbook.Web;

namespace Lugbook.Commands;

/// <summary>"valve check": every handbook line beside the fitted law, and beside the law fitted without it.</summary>
internal static class ValveCheckCommand
{
    public static Command Create()
    {
        var write = new Option<string?>("--write") { Description = "Write the pages valve-fits.md and valve-numbers.md into this folder instead of showing the first." };
        var command = new BenchWord("check", "How well every type's law meets its handbook lines, and each line when it is left out of the fit.",
            "lugbook valve check",
            "lugbook valve check --write docs/accuracy")
        { write };
        command.SetAction(async (parsed, stop) =>
        {
            var data = BenchOptions.UsualDataFolder();
            var library = await ValveData.LoadAsync(data, OwnValves.None, stop);
            foreach (var fault in library.Faults) await parsed.InvocationConfiguration.Error.WriteLineAsync($"data/valves, {fault}\n");
            if (!library.Faults.IsEmpty) return ExitCode.WrongInput;
            var page = ValveAccuracy.Page(ValveAccuracy.Table(library), await File.ReadAllTextAsync(Path.Combine(data, "valves", "published-tube-model-parameters.csv"), stop));
            if (parsed.GetValue(write) is not { } folder)
            {
                await parsed.InvocationConfiguration.Output.WriteLineAsync(page.TrimEnd());
                return ExitCode.Done;
            }
            if (!Directory.Exists(folder))
            {
                await parsed.InvocationConfiguration.Error.WriteLineAsync($"lugbook: there is no folder '{folder}'. Make it first, or name another; nothing was written.");
                return ExitCode.WrongInput;
            }
            foreach (var (name, text) in new[] { ("valve-fits.md", page), ("valve-numbers.md", ValveAccuracy.Numbers(library)) })
            {
                var code = await Saving.WriteAsync(parsed, Path.Combine(folder, name), async path =>
                {
                    await File.WriteAllTextAsync(path, text, stop);
                    return [];
                });
                if (code != ExitCode.Done) return code;
            }
            return ExitCode.Done;
        });
        return command;
    }
}
