using System.Collections.Immutable;
using Lugbook.Trade.Quantities;

namespace Lugbook.Trade.Markings.Text;

internal sealed partial class Grammar
{
    // Bare numbers take the unit of the next number that has one: 40-20-20 MFD, 450-400-25V.
    private void Distribute(List<Element> elements)
    {
        var waiting = new List<Element>();
        var afterValue = false;
        foreach (var element in elements)
        {
            if (!element.Code.IsEmpty)
            {
                AddCode(waiting, element);
                waiting.Clear();
                afterValue = true;
                continue;
            }
            waiting.Add(element);
            if (element.Unit is null) continue;
            switch (element.Unit.Role)
            {
                case UnitRole.Value:
                    AddValues(waiting, element.Unit);
                    afterValue = true;
                    break;
                case UnitRole.Volts:
                    AddVolts(waiting, element.Unit, afterValue);
                    break;
                default:
                    // -40+85 °C: all of it is temperature.
                    if (element.Unit.Role != UnitRole.Temperature) AddBare(waiting[..^1], afterValue);
                    AddOther(element);
                    break;
            }
            waiting.Clear();
        }
        AddBare(waiting, afterValue);
        _mark = false;
        if (elements.Any(e => e.Number.IsPointLeftOut && e.Unit is null or { Role: UnitRole.Value })) _facts.Doubts.Add("a point is taken to stand before the first nought");
    }

    private void AddCode(List<Element> before, Element element)
    {
        // 32+32µ: bare numbers take the letter's multiplier.
        var candidates = element.Code;
        if (before.Count > 0)
        {
            var letters = candidates.Where(c => c.Form == Form.LetterTail && c.Tolerance is null).ToList();
            if (letters.Count == 0) AddBare(before, false);
            else candidates = [.. letters.Select(c => c with { Values = [.. before.SelectMany(b => Enumerable.Repeat(b.Number.Value * (c.Value / element.Number.Value), b.Count)), .. c.Values] })];
        }
        if (element.Count > 1) candidates = [.. candidates.Select(c => c with { Values = [.. Enumerable.Repeat(c.Value, element.Count)] })];
        Add(candidates, element, element.Start);
    }

    private void AddValues(List<Element> elements, UnitWord unit)
    {
        var ranged = elements.Count == 2 && elements[1].Before == '-' && elements[0].Number.Value < elements[1].Number.Value && unit.Senses.Any(s => s.Sense is { Unit: Unit.Farad, Exponent: -12 });
        var candidates = new List<Candidate>();
        foreach (var sense in unit.Senses)
        {
            if (sense is { Habit: Habit.MThousand, Weight: 0.3 } && elements.Any(e => e.Number.Value < 26)) continue;
            // 0.1+2x2500pF: what is below 1 beside hundreds of picofarads is in microfarads.
            var micro = sense.Sense is { Unit: Unit.Farad, Exponent: -12 } && elements.Count > 1 && elements[^1].Number.Value >= 100;
            double One(Numeral n) => micro && n.Value < 1 ? n.Times(-6) : sense.Sense.Of(n);
            ImmutableArray<double> Values(Func<Numeral, Numeral> pick) => [.. elements.SelectMany(e => Enumerable.Repeat(One(pick(e.Number)), e.Count))];
            var tolerance = unit.ToleranceLetter == '\0' ? null : ToleranceLetters.Of(unit.ToleranceLetter, sense.Sense.Unit, sense.Sense.Of(elements[0].Number));
            var plain = new Candidate(sense.Sense.Unit, Values(n => n), Form.Spelt, sense.Code, sense.Reason) { Habit = sense.Habit, Weight = sense.Weight, Tolerance = tolerance };
            candidates.Add(plain);
            if (elements.Any(e => e.Number.Other is not null))
                candidates.Add(plain with { Values = Values(n => n.Other ?? n), OtherMark = elements.First(e => e.Number.Other is not null).Number.OtherMark });
            if (ranged && sense.Sense is { Unit: Unit.Farad, Exponent: -12 })
                candidates.Add(plain with
                {
                    Values = [sense.Sense.Of(elements[1].Number)],
                    Form = Form.Range,
                    Code = "range of an adjustable part",
                    Reason = "the lowest and the highest value of a trimmer or tuning capacitor; the highest is given",
                    Doubt = $"it adjusts from {Notation.Print(sense.Sense.Of(elements[0].Number), Unit.Farad)} upwards",
                });
        }
        Add([.. candidates], elements[0], elements[0].Start);
    }

    private void Add(ImmutableArray<Candidate> candidates, Element first, int start) =>
        _facts.Values.Add(new(candidates, start, first.Before != '\0' || _mark) { VoltsBefore = _facts.Volts.Count, Figures = first.Number.Figures });

    private void AddVolts(List<Element> elements, UnitWord unit, bool afterValue)
    {
        // .02-600V and 8-450V without another value: what cannot be volts is the value.
        var first = 0;
        while (first < elements.Count - 1 && (elements[first].Number.Value < 2.5 || (!_facts.HasValue && !afterValue && IsValueBefore(elements[first].Number.Value, elements[^1].Number.Value))))
            first++;
        AddBare(elements[..first], afterValue);
        foreach (var element in elements[first..])
        {
            var number = element.Number.Other is { } other && other.IsWhole && element.Number.Value < 10 ? other : element.Number;
            _facts.Volts.Add(new(number.Times(unit.Exponent), unit.Traits, element.Start, _voltGroup));
        }
        _facts.VoltTraits |= unit.Traits;
        _voltGroup++;
    }

    // 8-450V, 2200-500V, 1000/500V
    private static bool IsValueBefore(double number, double volts) => number < volts || number >= 1000 || !VoltageCodes.IsRating(number);

    private void AddBare(IReadOnlyList<Element> elements, bool follows)
    {
        if (elements.Count == 0) return;
        var numbers = elements.SelectMany(e => Enumerable.Repeat(e, e.Count)).ToList();
        _facts.Bares.Add(new([.. numbers.Select(e => e.Number)], [.. numbers.Select(e => e.Before)], [.. numbers.Select(e => e.Start)], follows || elements[0].Before != '\0') { VoltsBefore = _facts.Volts.Count });
    }

    private void AddOther(Element element)
    {
        var value = element.Number.Times(element.Unit!.Exponent);
        switch (element.Unit.Role)
        {
            case UnitRole.Watts: _facts.Watts ??= value; break;
            case UnitRole.Amperes: _facts.Amperes ??= value; break;
            case UnitRole.Percent: _facts.Tolerance ??= value <= 100 ? Quantities.Tolerance.Percent(value) : null; break;
            default: break;
        }
    }
}
