namespace Lugbook.Store.Shelves;

/// <summary>What a book may be called: the name stands in addresses and in file names.</summary>
internal static class BookNames
{
    private const int Longest = 100;

    /// <exception cref="ShelfException">The name will not do; the message says why and what would.</exception>
    public static void Check(string name)
    {
        if (string.IsNullOrWhiteSpace(name))
            throw new ShelfException("A book needs a name: letters, digits and hyphens, such as kitchen-radio.");
        if (name.Length > Longest)
            throw new ShelfException($"A book's name has at most {Longest} characters; this one has {name.Length}: '{name[..20]}…'. The title may be as long as you like.");
        foreach (var letter in name)
            if (!char.IsLetterOrDigit(letter) && letter != '-')
                throw new ShelfException($"A book's name has letters, digits and hyphens only; '{name}' has '{letter}'. Write it with a hyphen there, such as kitchen-radio.");
    }
}
