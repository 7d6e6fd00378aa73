using Lugbook.Circuit.Elements;
using Lugbook.Circuit.Lanes;
using Lugbook.Circuit.Solving;

namespace Lugbook.Circuit.Variants;

/// <summary>Which array of <see cref="Numbers{T}"/> a parameter is written into.</summary>
internal enum Target { Siemens, Amperes, GivenVolts, Diodes, Triodes, Pentodes, Converters }

/// <summary>How a parameter becomes the number written.</summary>
internal enum Form { Times, Over, OverOhms, OverPosition, OverRest }

/// <summary>One number that a parameter sets: scale·x, scale/x (of ohms: 0.1 Ω at least), or for the two halves of a track scale/x and scale/(1 − x).</summary>
internal readonly record struct Write(int Parameter, Target Target, int Index, Form Form, double Scale);

/// <summary>Puts a variant's values into a lane.</summary>
internal static class Writer
{
    /// <summary>A short is 0.1 Ω: beside a larger conductance the currents of megohms drown in rounding.</summary>
    public const double MostSiemens = 10;
    public static void Into<T>(ReadOnlySpan<Write> writes, ReadOnlySpan<double> values, Numbers<T> numbers, int lane) where T : unmanaged, ILane<T>
    {
        foreach (var write in writes)
        {
            var x = values[write.Parameter];
            var number = write.Form switch
            {
                Form.Times => write.Scale * x,
                Form.Over => write.Scale / x,
                Form.OverOhms => write.Scale / Math.Max(x, Placed.LeastOhms),
                Form.OverPosition => write.Scale / Math.Clamp(x, Placed.End, 1 - Placed.End),
                _ => write.Scale / (1 - Math.Clamp(x, Placed.End, 1 - Placed.End)),
            };
            if (write.Target == Target.Siemens)
            {
                numbers.Conduct(write.Index, lane, Math.Min(number, MostSiemens));
                continue;
            }
            var array = write.Target switch
            {
                Target.Amperes => numbers.Amperes,
                Target.GivenVolts => numbers.GivenVolts,
                Target.Diodes => numbers.Diodes,
                Target.Triodes => numbers.Triodes,
                Target.Pentodes => numbers.Pentodes,
                _ => numbers.Converters,
            };
            Lane.Of(array.AsSpan())[write.Index * T.Width + lane] = number;
        }
    }

    /// <summary>The writes of one varied parameter.</summary>
    /// <exception cref="ArgumentException">The element has no such parameter.</exception>
    public static IEnumerable<Write> Of(Assembly assembly, int[] joinedOf, Element element, Varied varied, int parameter)
    {
        var name = element.Name;
        var siemens = Indices(assembly.Conductances, c => c.Element == name);
        switch (element, varied.Parameter)
        {
            case (Control c, Parameter.Ohms): return Track(c, [new(parameter, Target.Siemens, 0, Form.Over, 1 / c.Position), new(parameter, Target.Siemens, 0, Form.Over, 1 / (1 - c.Position))]);
            case (Control c, Parameter.Position): return Track(c, [new(parameter, Target.Siemens, 0, Form.OverPosition, 1 / c.Ohms), new(parameter, Target.Siemens, 0, Form.OverRest, 1 / c.Ohms)]);
            case (Battery b, Parameter.Volts): return [new(parameter, Target.Amperes, Indices(assembly.Drains, d => d.Element == name)[0], Form.Times, 1 / b.Ohms)];
            case (CurrentDrain, Parameter.Amperes): return [new(parameter, Target.Amperes, Indices(assembly.Drains, d => d.Element == name)[0], Form.Times, 1)];
            case (Declared d, Parameter.Volts): return [new(parameter, Target.GivenVolts, joinedOf[d.Node], Form.Times, 1)];
            case (GasRegulator, Parameter.Volts): return Device(assembly.Diodes, Target.Diodes, (2, Form.Times, 1));
            case (GasRegulator, Parameter.Ohms): return Device(assembly.Diodes, Target.Diodes, (0, Form.OverOhms, 1));
            case (Converter, Parameter.OscillatorVolts): return Device(assembly.Converters, Target.Converters, (15, Form.Times, 1));
            case (Diode d, Parameter.Perveance): return Device(assembly.Diodes, Target.Diodes, (0, Form.Times, 1));
            case (Triode t, Parameter.Perveance): return Device(assembly.Triodes, Target.Triodes, (1, Form.Times, 1));
            case (Triode, Parameter.Mu): return Device(assembly.Triodes, Target.Triodes, (0, Form.Over, 1));
            case (Pentode, Parameter.Perveance): return Device(assembly.Pentodes, Target.Pentodes, (2, Form.Times, 1));
            case (Pentode p, Parameter.Mu): return Device(assembly.Pentodes, Target.Pentodes, (0, Form.Over, 1), (11, Form.Times, p.Law.Knee));
            case (Converter, Parameter.Perveance): return Device(assembly.Converters, Target.Converters, (1, Form.Times, 1));
            case (Converter, Parameter.Mu): return Device(assembly.Converters, Target.Converters, (0, Form.Over, 1));
            case (Resistor or Inductor or Fuse or Filament or Thermistor, Parameter.Ohms): return [.. siemens.Select(k => new Write(parameter, Target.Siemens, k, Form.Over, 1))];
            default: throw new ArgumentException($"Element '{name}' has no {varied.Parameter} that can be varied.", nameof(varied));
        }

        // The two halves of a track stand one after the other unless one joins its own ends; told apart by their nodes.
        IEnumerable<Write> Track(Control c, Write[] halves)
        {
            int[][] ends = [[c.A, c.Slider], [c.Slider, c.B]];
            var from = 0;
            for (var half = 0; half < 2; half++)
            {
                var (a, b) = (joinedOf[ends[half][0]], joinedOf[ends[half][1]]);
                if (a == b) continue;
                yield return halves[half] with { Index = siemens[from++] };
            }
        }

        Write[] Device<TDevice>(Bank<TDevice> bank, Target target, params (int Number, Form Form, double Scale)[] writes) where TDevice : Devices.IDevice
        {
            var k = Array.FindIndex(bank.Devices, d => d.Element == name);
            return [.. writes.Select(w => new Write(parameter, target, k * TDevice.Parameters + w.Number, w.Form, w.Scale))];
        }
    }

    private static int[] Indices<TItem>(TItem[] items, Func<TItem, bool> which) => [.. Enumerable.Range(0, items.Length).Where(k => which(items[k]))];
}
