using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Lugbook.Commands;

/// <summary>All commands, and how a run of one ends.</summary>
internal static class CommandLine
{
    /// <summary>Runs the command line and returns the exit code; never throws for wrong input.</summary>
    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter error, CancellationToken stop)
    {
        var parsed = Root().Parse(args);
        if (parsed.Errors.Count > 0 && parsed.Action is ParseErrorAction)
        {
            foreach (var wrong in parsed.Errors) await error.WriteLineAsync($"lugbook: {wrong.Message}");
            var command = parsed.CommandResult.Command;
            var path = string.Join(' ', Path(command).Reverse());
            await error.WriteLineAsync($"'{path} --help' shows how it is used, with examples.");
            return ExitCode.WrongInput;
        }
        return await parsed.InvokeAsync(new InvocationConfiguration { Output = output, Error = error }, stop);
    }

    private static IEnumerable<string> Path(Command command)
    {
        for (var at = command; at is not (null or RootCommand); at = at.Parents.OfType<Command>().FirstOrDefault()) yield return at.Name;
        yield return "lugbook";
    }

    private static RootCommand Root()
    {
        var root = new RootCommand(
            "The restorer's bench for valve-era electronics: read what each part was, map what is joined to what, " +
            "choose what takes its place, order once, and exchange it lug by lug.\n\n" +
            "Without a command it opens the bench in the browser. BOOK is a folder of CSV files, a .lugbook file or an .xlsx file.");
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpWithExamples((HelpAction)help.Action!, [
            "lugbook                                   open the bench at http://localhost:5117",
            "lugbook read \".005 MFD 600V\"              what was this part?",
            "lugbook map data/demo/radio               what is joined to what, and what does not agree?",
            "lugbook fit data/demo/radio               what to do, lug by lug",
        ]);
        BenchCommand.AddTo(root);
        root.Subcommands.Add(ReadCommand.Create());
        root.Subcommands.Add(MapCommand.Create());
        root.Subcommands.Add(SheetCommand.Create());
        root.Subcommands.Add(PowerCommand.Create());
        root.Subcommands.Add(JudgeCommand.Create());
        root.Subcommands.Add(ChooseCommand.Create());
        root.Subcommands.Add(OrderCommand.Create());
        root.Subcommands.Add(FitCommand.Create());
        root.Subcommands.Add(ProveCommand.Create());
        root.Subcommands.Add(WakeCommand.Create());
        root.Subcommands.Add(TraceCommand.Create());
        root.Subcommands.Add(ValveCommand.Create());
        root.Subcommands.Add(DrawCommand.Create());
        root.Subcommands.Add(PhotoCommand.Create());
        root.Subcommands.Add(SaveCommand.Create());
        return root;
    }
}
