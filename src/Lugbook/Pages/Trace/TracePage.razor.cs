using System.Globalization;
using Lugbook.Drawing;
using Lugbook.Restoration.Trace;
using Lugbook.Trade;
using Lugbook.Trade.Meters;
using Lugbook.Trade.Readings;
using Lugbook.Web;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Lugbook.Pages.Trace;

/// <summary>The search: every reading is stored in the book at once, and the suspects follow.</summary>
public partial class TracePage
{
    private readonly Dictionary<ProbePlace, string?> _texts = [];
    private readonly HashSet<string> _symptoms = new(StringComparer.Ordinal);
    private TraceModel? _model;
    private TraceResult? _result;
    private CancellationTokenSource? _busy;
    private Book? _solvedFor;
    private string? _trouble, _entryTrouble, _from, _to, _value;
    private ReadingKind _kind = ReadingKind.Volts;
    private bool _cold;
    private double _share;
    private ElementReference _host;
    private IJSObjectReference? _script;
    private DotNetObjectReference<TracePage>? _self;
    private (TraceResult?, BookView?) _drawnFor;
    private string _svg = "";

    /// <inheritdoc/>
    protected override void OnBook()
    {
        if (View is null) return;
        if (_model is not null && _solvedFor is { } before && Same(before, View.Book)) Rank();
        else _ = PrepareAsync(View);
    }

    /// <inheritdoc/>
    protected override void OnLeave()
    {
        _busy?.Cancel();
        _self?.Dispose();
    }

    // A reading changes nothing of what is solved.
    private static bool Same(Book a, Book b) => a.Facts == b.Facts && a.Mounts.Equals(b.Mounts) && a.Lugs.Equals(b.Lugs) && a.Wires.Equals(b.Wires) && a.Parts.Equals(b.Parts) && a.Work.Equals(b.Work)
        && a.Meters.Equals(b.Meters) && a.Declared.Equals(b.Declared) && a.ValveTypes.Equals(b.ValveTypes) && a.ValveLines.Equals(b.ValveLines) && a.SheetReadings.Equals(b.SheetReadings);

    private async Task PrepareAsync(BookView view)
    {
        _solvedFor = view.Book;
        if (_busy is not null) await _busy.CancelAsync();
        using var busy = CancellationTokenSource.CreateLinkedTokenSource(Stop);
        _busy = busy;
        (_model, _result, _trouble, _share) = (null, null, null, 0);
        try
        {
            await InvokeAsync(StateHasChanged);
            var progress = new Progress<double>(share => _ = InvokeAsync(() => { _share = share; StateHasChanged(); }));
            var settings = TraceSettings.Of(view.Book) with { Symptoms = [.. _symptoms], MayRun = !_cold };
            var model = await Task.Run(() => TraceStage.Prepare(view.Solved, settings, progress, busy.Token), busy.Token);
            if (_busy != busy) return;
            (_model, _busy) = (model, null);
            if (model is null) _result = TraceStage.Without(view.Solved);
            else await Task.Run(Rank, Stop);
        }
        catch (OperationCanceledException) { if (_busy == busy) _busy = null; }
        catch (Exception trouble) when (trouble is not OutOfMemoryException)
        {
            if (_busy != busy && _busy is not null) return;
            (_trouble, _busy) = (trouble.GetBaseException().Message, null);
        }
        if (!Stop.IsCancellationRequested) await InvokeAsync(StateHasChanged);
    }

    private void Rank()
    {
        if (_model is null || View is null) return;
        _result = TraceStage.Run(_model, View.Book.Readings, 3, View.Book.Facts is { TodayLineVolts: > 0, LineVolts: > 0 } ? 1 : null);
        foreach (var next in _result.Next) _texts.TryAdd(next.Place, null);
    }

    private string Drawing()
    {
        if (View is null) return "";
        if (_drawnFor == (_result, View)) return _svg;
        _drawnFor = (_result, View);
        var suspects = _result?.Readings.IsEmpty == false ? _result.Suspects.Where(s => s.Position.Length > 0).GroupBy(s => s.Position).Select(g => new Drawing.Suspect(g.Key, g.Sum(s => s.Probability))).Where(s => s.Weight > 0.02).Take(5) : [];
        return _svg = SvgWriter.Write(ChassisDrawing.Draw(View.Book, View.Layout, View.Map, new DrawingOptions { Suspects = [.. suspects] }));
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_result is null or { Reason: not null } || View is null) return;
        _script ??= await Js.InvokeAsync<IJSObjectReference>("import", "./chassis.js");
        _self ??= DotNetObjectReference.Create(this);
        await _script.InvokeVoidAsync("attach", _host, _self);
    }

    /// <summary>A lug was tapped: the next reading is there.</summary>
    [JSInvokable]
    public void Tapped(string kind, string name)
    {
        if (kind == "lug") _from = name;
        StateHasChanged();
    }

    private static string Id(ProbePlace place) => $"tn-{place.Kind}-{place.From}-{place.To}";

    private async Task StoreAsync(Proposal next)
    {
        if (await KeepAsync(next.Place.Kind, next.Place.From, next.Place.To, _texts.GetValueOrDefault(next.Place), BookMeters.Named(View!.Book, next.Meter) ?? BookMeters.AtBench(View.Book))) _texts[next.Place] = null;
    }

    private async Task StoreOwnAsync()
    {
        var common = View!.Map.Common.Node?.Lugs.FirstOrDefault() ?? "";
        var to = string.IsNullOrWhiteSpace(_to) || string.Equals(_to.Trim(), "common", StringComparison.OrdinalIgnoreCase) ? common : _to.Trim();
        var meters = Lugbook.Restoration.Slips.SlipsStage.MetersOf(View.Book);
        var meter = _kind switch { ReadingKind.Volts => TraceSettings.Of(View.Book).Volts, ReadingKind.Farads => meters.Farads ?? meters.Ohms, _ => meters.Ohms };
        if (await KeepAsync(_kind, _from?.Trim() ?? "", to, _value, meter)) _value = null;
    }

    private async Task<bool> KeepAsync(ReadingKind kind, string from, string to, string? text, Meter meter)
    {
        (var taken, _entryTrouble) = ReadingForm.ReadAt(View!.Map, TraceStage.Place, kind, from, to, text, meter, DateTimeOffset.UtcNow);
        return taken is not null && await EditAsync($"{ReadingWords.Of(kind)} read, {from} to {to}", book => book with { Readings = book.Readings.Add(taken) });
    }

    private Task<bool> LeaveOutAsync(TraceReading reading) => EditAsync($"{TraceStage.At(reading.Place)} left out", book => book with
    {
        Readings = Table<Reading>.Of(book.Readings.Where(r => TraceStage.PlaceOf(r, View!.Solved) != reading.Place)),
    });

    private void Symptom(string word, bool on)
    {
        if (on) _symptoms.Add(word);
        else _symptoms.Remove(word);
        AskAgain();
    }

    private void Cold(bool on)
    {
        _cold = on;
        AskAgain();
    }

    private void AskAgain()
    {
        if (_model is null) return;
        _model = TraceStage.Asked(_model, [.. _symptoms], !_cold);
        Rank();
    }

    private async Task LineAsync(ChangeEventArgs e)
    {
        var text = (e.Value as string)?.Trim().Replace(',', '.').TrimEnd('V', 'v', ' ') ?? "";
        double? volts = null;
        if (text.Length > 0)
        {
            if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) || v is not (> 10 and < 500))
            {
                _entryTrouble = $"'{text}' is no line voltage. Write volts, as 121; nothing was stored.";
                return;
            }
            volts = v;
        }
        _entryTrouble = null;
        await EditAsync("line volts read", book => book with { Facts = book.Facts with { TodayLineVolts = volts } });
    }

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
