using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

/// <summary>The three sorts of thing that a marking is made of.</summary>
internal enum TokenKind
{
    /// <summary>A number, in figures or as a word ("half").</summary>
    Number,
    /// <summary>Letters; the dots of an abbreviation are taken out.</summary>
    Word,
    /// <summary>One sign: - + / % ± ~ and so on.</summary>
    Sign,
}

/// <summary>One piece of a marking.</summary>
/// <param name="Kind">Its sort.</param>
/// <param name="Text">The word, the sign, or the figures as written.</param>
/// <param name="Number">The number; default unless it is one.</param>
/// <param name="Start">Index of its first character in the folded text.</param>
/// <param name="End">One past its last.</param>
/// <param name="Glued">No blank before it.</param>
/// <param name="Spelt">A number written as a word.</param>
internal readonly record struct Token(TokenKind Kind, string Text, Numeral Number, int Start, int End, bool Glued, bool Spelt = false)
{
    /// <summary>Is it this sign?</summary>
    public bool Is(char sign) => Kind == TokenKind.Sign && Text[0] == sign;
    /// <summary>A number?</summary>
    public bool IsNumber => Kind == TokenKind.Number;
    /// <summary>A word?</summary>
    public bool IsWord => Kind == TokenKind.Word;
    /// <summary>A whole number of so many figures, written without marks?</summary>
    public bool IsFigures(int count) => IsNumber && !Spelt && Text.Length == count && Text.All(char.IsAsciiDigit);
    /// <summary>A word of one letter?</summary>
    public bool IsLetter => IsWord && Text.Length == 1;
}

/// <summary>Why a marking has no meaning.</summary>
/// <param name="At">Index in the folded text.</param>
/// <param name="Problem">What is wrong.</param>
/// <param name="Remedy">What to do.</param>
internal sealed record Failure(int At, string Problem, string Remedy);
