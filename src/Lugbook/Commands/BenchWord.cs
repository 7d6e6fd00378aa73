using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Lugbook.Commands;

/// <summary>A command of one word, with examples for the foot of its help.</summary>
internal sealed class BenchWord(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>Whole command lines.</summary>
    public IReadOnlyList<string> Examples { get; } = examples;
}

/// <summary>The usual help, then the examples of the command that it was asked of.</summary>
internal sealed class HelpWithExamples(HelpAction usual, IReadOnlyList<string> rootExamples) : SynchronousCommandLineAction
{
    public override int Invoke(ParseResult parseResult)
    {
        var code = usual.Invoke(parseResult);
        var writer = parseResult.InvocationConfiguration.Output;
        writer.WriteLine("Examples:");
        foreach (var example in parseResult.CommandResult.Command is BenchWord word ? word.Examples : rootExamples) writer.WriteLine($"  {example}");
        writer.WriteLine();
        return code;
    }
}
