namespace Lugbook.Drawing;

/// <summary>The drawing's look: paper and ink. Every colour that a scheme may change is a variable with its fallback.</summary>
/// <remarks>
/// Variables: --draw-paper, --draw-ink, --draw-soft, --draw-chassis, --draw-metal, --draw-phenolic, --draw-fibre, --draw-mount, --draw-mark
/// (highlight), --draw-todo, --draw-done, --draw-stays. Bands, dots and insulation keep their real colours in every scheme.
/// </remarks>
public static class SvgStyle
{
    /// <summary>The style sheet that is written into every drawing; it touches nothing outside it.</summary>
    public const string Css = """

        .chassis-drawing{--p:var(--draw-paper,#faf6ec);--i:var(--draw-ink,#2c2925);--s:var(--draw-soft,#8a8274);--c:var(--draw-chassis,#f1ebdc);--m:var(--draw-metal,#d5d3cb);--b:var(--draw-phenolic,#c49a63);--f:var(--draw-fibre,#e6d9bb);--o:var(--draw-mount,#e9e2d0);--h:var(--draw-mark,#b3261e);--t:var(--draw-todo,#a8480a);--d:var(--draw-done,#1f6b3a);--k:var(--draw-stays,#35577d);font-family:"Helvetica Neue",Arial,"Liberation Sans","DejaVu Sans",sans-serif}
        .chassis-drawing path,.chassis-drawing circle{stroke:var(--i);stroke-width:.28;stroke-linejoin:round;stroke-linecap:round}
        .chassis-drawing .line{fill:none}
        .chassis-drawing .sheet{fill:var(--p)}
        .chassis-drawing .chassis{fill:var(--c);stroke:var(--s);stroke-width:.6}
        .chassis-drawing .front-edge{stroke:var(--i);stroke-width:1.1}
        .chassis-drawing .zone{fill:none;stroke:var(--s);stroke-width:.4;stroke-dasharray:2.4 1.8}
        .chassis-drawing .chassis.proposed,.chassis-drawing [data-mount].proposed path,.chassis-drawing [data-mount].proposed circle{stroke-dasharray:1.6 1}
        .chassis-drawing .scale{stroke-width:.5}
        .chassis-drawing .mount{fill:var(--o)}.chassis-drawing .metal{fill:var(--m)}.chassis-drawing .metal.inner,.chassis-drawing .metal.faint{fill:var(--o)}
        .chassis-drawing .phenolic{fill:var(--b)}.chassis-drawing .phenolic.inner{fill:var(--b);stroke-width:.18}.chassis-drawing .fibre{fill:var(--f)}
        .chassis-drawing .hole{fill:var(--p)}.chassis-drawing .rivet,.chassis-drawing .mark,.chassis-drawing .symbol{fill:var(--i)}.chassis-drawing .plate{fill:var(--p);opacity:.85;stroke:none}
        .chassis-drawing .iron{fill:#8f8b84;fill-opacity:.55}.chassis-drawing .rubber{fill:#4a4641}.chassis-drawing .brass{fill:#d9b765}
        .chassis-drawing .thin{stroke-width:.2}.chassis-drawing .faint{stroke-opacity:.55}
        .chassis-drawing .tag{stroke:var(--s);stroke-width:1.6}
        .chassis-drawing .wire-edge{stroke:var(--i);stroke-width:1.25}.chassis-drawing .wire{stroke:#9a958b;stroke-width:.8}
        .chassis-drawing .bare-edge{stroke-width:.75}.chassis-drawing .wire.bare{stroke:var(--m);stroke-width:.4}
        .chassis-drawing .sheath-edge{stroke-width:2}.chassis-drawing .wire.sheath{stroke:var(--m);stroke-width:1.5}.chassis-drawing .wire.braid{stroke:var(--i);stroke-width:1.5;stroke-dasharray:.2 1;stroke-linecap:butt}
        .chassis-drawing .cord-edge{stroke-width:2}.chassis-drawing .wire.cord{stroke-width:1.5}
        .chassis-drawing .wire.lay{stroke:var(--i);stroke-width:.8;stroke-dasharray:.28 1.5;stroke-linecap:butt}.chassis-drawing .wire.tracer{stroke-width:.8;stroke-dasharray:1.2 2.2;stroke-linecap:butt}
        .chassis-drawing .loose-end{stroke-dasharray:.8 .8}
        .chassis-drawing .bond{stroke-width:.4}
        .chassis-drawing .lead{stroke:var(--i);stroke-width:.5}.chassis-drawing .lead-edge{stroke-width:1}.chassis-drawing .flying{stroke-width:.65}.chassis-drawing .flying.usual{stroke-dasharray:2 1.6;stroke-linecap:butt}
        .chassis-drawing .winding{stroke-width:.4}
        .chassis-drawing .body{stroke-width:.34}
        .chassis-drawing .resistor{fill:#b98f63}.chassis-drawing .cement{fill:#d8d2c2}.chassis-drawing .paper{fill:#e8cf8e}.chassis-drawing .moulded{fill:#6b4a3a}.chassis-drawing .film{fill:#e0b64f}
        .chassis-drawing .tin{fill:#b9c4cc}.chassis-drawing .mica{fill:#a5644a}.chassis-drawing .disc{fill:#d9a860}.chassis-drawing .ceramic{fill:#e3d8c3}.chassis-drawing .glass{fill:#dfe9e6}.chassis-drawing .coil{fill:#cfe0c0}.chassis-drawing .block{fill:#d6cfc0}
        .chassis-drawing .band{stroke-width:.12}.chassis-drawing .dot{stroke-width:.16}
        .chassis-drawing .lug{fill:#e7e2d2;stroke-width:.38}.chassis-drawing .foot .lug{fill:#b8b3a6}.chassis-drawing .hit{fill:transparent;stroke:none;pointer-events:all}
        .chassis-drawing text{fill:var(--i);text-anchor:middle;stroke:none;pointer-events:none}
        .chassis-drawing .print{fill:#2c2925}.chassis-drawing .print.strong{font-weight:700}.chassis-drawing .valve{font-weight:600}
        .chassis-drawing .caption{fill:var(--s)}.chassis-drawing .caption.strong{font-weight:600;fill:var(--i)}
        .chassis-drawing .label{paint-order:stroke;stroke:var(--c);stroke-width:.9;stroke-linejoin:round}
        .chassis-drawing .part-name{font-weight:600}.chassis-drawing .value{font-weight:400}.chassis-drawing .mount-name{font-weight:700;letter-spacing:.02em}.chassis-drawing .lug-no{stroke-width:.6}.chassis-drawing .note{font-weight:600;fill:var(--h)}
        .chassis-drawing .ring{fill:none;stroke:var(--h);stroke-width:.8;stroke-dasharray:2 .8}
        .chassis-drawing .suspect{fill:none;stroke:var(--h);stroke-width:1.1}.chassis-drawing .suspect.first{stroke-width:1.9}.chassis-drawing .suspect.last{stroke-width:.6;stroke-dasharray:1 1}.chassis-drawing .suspect-flag{fill:var(--p);stroke:var(--h);stroke-width:.5}.chassis-drawing .suspect-word{font-weight:700}
        .chassis-drawing .probe{stroke:#fff;stroke-width:.5;paint-order:stroke}.chassis-drawing .probe.red{fill:#b3261e}.chassis-drawing .probe.black{fill:#161412}.chassis-drawing .probe-word{font-weight:700;paint-order:stroke;stroke:#fff;stroke-width:1.2;stroke-linejoin:round}.chassis-drawing .probe-word.red{fill:#b3261e}.chassis-drawing .probe-word.black{fill:#161412}
        .chassis-drawing.dims [data-layer] [role]:not(.hl),.chassis-drawing.dims [data-layer=labels]>g:not(.hl){opacity:.28}
        .chassis-drawing .hatch{stroke:var(--t);stroke-width:.4;stroke-opacity:.6}.chassis-drawing .badge{fill:var(--p);stroke-width:.4}.chassis-drawing .sign{stroke-width:.5}.chassis-drawing .sign-text{font-weight:700}
        .chassis-drawing .work-todo .work-line,.chassis-drawing .work-todo .badge{stroke:var(--t)}.chassis-drawing .work-todo .work-line{stroke-width:.7}
        .chassis-drawing .work-measure .work-line{stroke:var(--t);stroke-dasharray:1.4 1}
        .chassis-drawing .work-done .work-line,.chassis-drawing .work-done .badge,.chassis-drawing .work-done .sign{stroke:var(--d)}
        .chassis-drawing .work-stays .work-line{stroke:var(--k);stroke-dasharray:.4 1}.chassis-drawing .work-stays .badge,.chassis-drawing .work-stays .sign{stroke:var(--k)}
        @media print{.chassis-drawing{--p:#fff;--c:#fff}.chassis-drawing .hit{display:none}}

        """;
}
