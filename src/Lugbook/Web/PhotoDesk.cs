using System.Collections.Concurrent;
using System.Threading.Channels;
using Lugbook.Store.Photographs;
using Lugbook.Store.Shelves;
using Lugbook.Trade.Photographs;
using Lugbook.Trade.Text;

namespace Lugbook.Web;

/// <summary>Takes photographs in and makes their sized-down copies, one after the other, beside what pages ask for.</summary>
/// <remarks>An original is stored before it is acknowledged; its copies follow. After a restart a copy that is missing is made when it is first asked for.</remarks>
internal sealed class PhotoDesk(IPhotographs store) : IAsyncDisposable
{
    private static readonly int[] Sides = [PhotoCopy.Small, PhotoCopy.Large];
    private readonly Channel<(string Book, string Sum)> _waiting = Channel.CreateUnbounded<(string, string)>();
    private readonly ConcurrentDictionary<(string Book, string Sum), Making> _making = new();
    private readonly SemaphoreSlim _looking = new(1, 1);
    private readonly CancellationTokenSource _stop = new();
    private Task? _worker;

    /// <summary>Raised with the book's name whenever a copy has been made or could not be.</summary>
    public event Action<string>? Progressed;

    /// <summary>Looks at a file and puts it into a book.</summary>
    /// <returns>The photograph, or why it was refused; then nothing is stored.</returns>
    /// <exception cref="ShelfException">It could not be stored.</exception>
    public async Task<(Photograph? Photograph, Complaint? Complaint)> TakeAsync(string book, ReadOnlyMemory<byte> bytes, PhotoMoment moment, string? place, string? caption, CancellationToken stop)
    {
        // One at a time: a large picture needs hundreds of megabytes while it is looked at.
        await _looking.WaitAsync(stop);
        PhotoContent? content;
        Complaint? complaint;
        try { (content, complaint) = await Task.Run(() => PhotoIntake.Check(bytes, "photograph"), stop); }
        finally { _looking.Release(); }
        if (content is null) return (null, complaint);
        Photograph? row = null;
        await store.AddPhotographAsync(book, Bench.Who, $"photograph {PhotoWords.Of(moment)}{(place is null ? "" : $" of {place}")}", content, b =>
        {
            row = content.Row(BookPhotographs.NextName(b), moment, place, caption);
            return b with { Photographs = b.Photographs.Add(row) };
        }, stop);
        _ = Begin(book, content.Sum);
        return (row, null);
    }

    /// <summary>How far the copies of a photograph are, 0 to 1; null when none are being made.</summary>
    public double? Progress(string book, string sum) => _making.TryGetValue(Key(book, sum), out var making) ? making.Done / (double)Sides.Length : null;

    /// <summary>A copy; waits while it is being made. Null when the book has no such photograph, or it cannot be decoded.</summary>
    public async Task<byte[]?> CopyAsync(string book, string sum, int side, CancellationToken stop)
    {
        if (await store.CopyAsync(book, sum, side, stop) is { } kept) return kept;
        await Begin(book, sum).WaitAsync(stop);
        return await store.CopyAsync(book, sum, side, stop);
    }

    private Task Begin(string book, string sum)
    {
        // Known before it waits, and waiting once only: the worker finds every key that it is given.
        var fresh = new Making();
        var making = _making.GetOrAdd(Key(book, sum), fresh);
        if (ReferenceEquals(making, fresh)) _waiting.Writer.TryWrite(Key(book, sum));
        lock (_stop) _worker ??= Task.Run(WorkAsync);
        return making.End.Task;
    }

    private async Task WorkAsync()
    {
        await foreach (var (book, sum) in _waiting.Reader.ReadAllAsync(_stop.Token))
        {
            var making = _making[(book, sum)];
            try
            {
                var original = await store.OriginalAsync(book, sum, _stop.Token);
                foreach (var side in original is null ? [] : Sides)
                {
                    await store.KeepCopyAsync(book, sum, side, PhotoCopy.Make(original, side), _stop.Token);
                    making.Done++;
                    Progressed?.Invoke(book);
                }
            }
            // The original is safe; the page shows that there is no copy, the next visit tries again, and the next photograph has its turn.
#pragma warning disable CA1031
            catch (Exception) when (!_stop.IsCancellationRequested) { }
#pragma warning restore CA1031
            finally
            {
                _making.TryRemove((book, sum), out _);
                making.End.TrySetResult();
                Progressed?.Invoke(book);
            }
        }
    }

    private static (string, string) Key(string book, string sum) => (book.ToUpperInvariant(), sum);

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        if (_worker is not null) await _worker.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        foreach (var making in _making.Values) making.End.TrySetResult();
        _stop.Dispose();
        _looking.Dispose();
    }

    private sealed class Making
    {
        public int Done { get; set; }
        public TaskCompletionSource End { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
