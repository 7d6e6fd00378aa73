using System.CommandLine;

namespace Lugbook.Commands;

/// <summary>Options and arguments that several commands share.</summary>
internal static class Shared
{
    public static Option<bool> Json() => new("--json") { Description = "Write the answer for programs; the shape is in docs/json.md." };

    public static Argument<string> Book() => new("BOOK")
    {
        Description = "A folder of CSV files (lugs.csv, parts.csv, wires.csv ...), a .lugbook file, an .xlsx file, or a CSV file of parts; or the short name of a book on the bench's shelf.",
    };
}
