namespace Lugbook.Commands;

/// <summary>What a command's exit code says to a script.</summary>
internal static class ExitCode
{
    /// <summary>Done, and the answer is not a "no".</summary>
    public const int Done = 0;
    /// <summary>The answer is "no" or "not safe".</summary>
    public const int No = 1;
    /// <summary>The input is wrong; standard error says what, where and what to do.</summary>
    public const int WrongInput = 2;
}
