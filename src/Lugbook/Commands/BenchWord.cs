using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Lugbook.Commands;

/// <summary>A command of one word that shows examples at the foot of its help.</summary>
internal sealed class BenchWord : Command
{
    public BenchWord(string name, string description, params string[] examples) : base(name, description)
    {
        var help = new HelpOption();
        help.Action = new HelpWithExamples((HelpAction)help.Action!, examples);
        Options.Add(help);
    }

    /// <summary>The usual help, then the examples.</summary>
    internal sealed class HelpWithExamples(HelpAction usual, IReadOnlyList<string> examples) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            var code = usual.Invoke(parseResult);
            if (examples.Count == 0) return code;
            var writer = parseResult.InvocationConfiguration.Output;
            writer.WriteLine("Examples:");
            foreach (var example in examples) writer.WriteLine($"  {example}");
            writer.WriteLine();
            return code;
        }
    }
}
