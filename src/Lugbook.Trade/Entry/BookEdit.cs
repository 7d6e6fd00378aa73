using Lugbook.Trade.Chassis;
using Lugbook.Trade.Parts;

namespace Lugbook.Trade.Entry;

/// <summary>One change that a bench note would make to a book.</summary>
public abstract record BookEdit
{
    private protected BookEdit() { }

    /// <summary>The change in words: "new part C7".</summary>
    public abstract string Say { get; }

    /// <summary>The book with this change; the book given is left alone.</summary>
    /// <exception cref="KeyNotFoundException">The row to be changed is no longer in the book.</exception>
    public abstract Book Apply(Book book);
}

/// <summary>A part that is new to the book.</summary>
/// <param name="Part">Its identity is 0 until it is in the book.</param>
public sealed record AddPart(Part Part) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"new part {Part.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Parts = book.Parts.Add(Part) };
}

/// <summary>A part of the book that changes.</summary>
/// <param name="Before">As the book had it.</param>
/// <param name="After">As it will be; the same identity.</param>
public sealed record ChangePart(Part Before, Part After) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"change {Before.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Parts = book.Parts.Replace(After) };
}

/// <summary>A part that leaves the book.</summary>
/// <param name="Part">As the book had it.</param>
public sealed record RemovePart(Part Part) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"remove {Part.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Parts = book.Parts.Remove(Part.Id) };
}

/// <summary>A wire or bond that is new to the book.</summary>
/// <param name="Wire">Its identity is 0 until it is in the book.</param>
public sealed record AddWire(Wire Wire) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"new wire {Wire.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Wires = book.Wires.Add(Wire) };
}

/// <summary>A mount that is new to the book.</summary>
/// <param name="Mount">Its identity is 0 until it is in the book.</param>
/// <param name="Implied">True when no line asked for it: a lead was on a lug of an unknown mount.</param>
public sealed record AddMount(Mount Mount, bool Implied) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"new mount {Mount.Name} ({Mount.KindAsWritten})";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Mounts = book.Mounts.Add(Mount) };
}

/// <summary>A lug that is new to the book.</summary>
/// <param name="Lug">Its identity is 0 until it is in the book.</param>
/// <param name="Implied">True when no line asked for it: a lead was on it.</param>
public sealed record AddLug(Lug Lug, bool Implied) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"new lug {Lug.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Lugs = book.Lugs.Add(Lug) };
}

/// <summary>A wire or bond that leaves the book.</summary>
/// <param name="Wire">As the book had it.</param>
public sealed record RemoveWire(Wire Wire) : BookEdit
{
    /// <inheritdoc/>
    public override string Say => $"remove {Wire.Name}";
    /// <inheritdoc/>
    public override Book Apply(Book book) => book with { Wires = book.Wires.Remove(Wire.Id) };
}
