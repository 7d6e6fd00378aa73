using System.Collections.Immutable;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Lugbook.Drawing.Raster;

/// <summary>The style sheet of our own drawings, as far as they use it: classes, attributes, elements, :not, descendants and children, variables with a fallback.</summary>
/// <remarks>What it does not know it refuses, so that a new rule is noticed and not lost. Source: W3C Selectors Level 3, CSS Variables Level 1.</remarks>
internal sealed partial class StyleRules
{
    private readonly List<Rule> _rules = [];

    /// <exception cref="NotSupportedException">A selector is beyond what is known here.</exception>
    public StyleRules(string css)
    {
        // Rules for other media (print) have braces within braces; they are not for a picture.
        css = Media().Replace(css, "");
        foreach (Match rule in Block().Matches(css))
        {
            var declarations = Declarations(rule.Groups["body"].Value);
            foreach (var selector in rule.Groups["selector"].Value.Split(','))
                // A pointer over it, or the keyboard's focus: not in a picture.
                if (selector.Trim() is { Length: > 0 } trimmed && !trimmed.Contains(":hover", StringComparison.Ordinal) && !trimmed.Contains(":focus", StringComparison.Ordinal)) _rules.Add(Parse(trimmed, declarations, _rules.Count));
        }
    }

    /// <summary>What holds for an element: its own presentation attributes, then the rules by weight and order, then its style attribute; inherited values are the caller's.</summary>
    public Dictionary<string, string> Of(XElement element)
    {
        var found = new Dictionary<string, string>();
        foreach (var attribute in element.Attributes().Where(a => Presentation.Contains(a.Name.LocalName))) found[attribute.Name.LocalName] = attribute.Value;
        foreach (var rule in _rules.Where(r => Matches(element, r.Parts, r.Parts.Length - 1)).OrderBy(r => r.Weight).ThenBy(r => r.Order))
            foreach (var (name, value) in rule.Declarations) found[name] = value;
        if ((string?)element.Attribute("style") is { } own)
            foreach (var (name, value) in Declarations(own)) found[name] = value;
        return found;
    }

    private static readonly HashSet<string> Presentation = ["fill", "stroke", "stroke-width", "stroke-dasharray", "opacity", "font-size", "font-weight", "text-anchor"];

    private static ImmutableArray<(string, string)> Declarations(string body) =>
        [.. body.Split(';').Select(d => d.Split(':', 2)).Where(d => d.Length == 2).Select(d => (d[0].Trim(), d[1].Trim()))];

    private static Rule Parse(string selector, ImmutableArray<(string, string)> declarations, int order)
    {
        var parts = ImmutableArray.CreateBuilder<Part>();
        var child = false;
        foreach (var word in Words().Matches(selector).Select(m => m.Value))
        {
            if (word == ">") { child = true; continue; }
            var tests = ImmutableArray.CreateBuilder<Test>();
            var rest = Simple().Replace(word, m =>
            {
                tests.Add(new(m.Groups["not"].Success, m.Groups["class"].Value, m.Groups["attr"].Value, m.Groups["value"].Success ? m.Groups["value"].Value.Trim('"', '\'') : null, m.Groups["element"].Value));
                return "";
            });
            if (rest.Length > 0) throw new NotSupportedException($"The style sheet's '{selector}' is not known to the picture writer: '{rest}'.");
            parts.Add(new(child, tests.ToImmutable()));
            child = false;
        }
        return new(parts.ToImmutable(), declarations, parts.SelectMany(p => p.Tests).Sum(t => t.Element.Length > 0 ? 1 : 100), order);
    }

    private static bool Matches(XElement element, ImmutableArray<Part> parts, int at)
    {
        if (!parts[at].Tests.All(t => t.Holds(element))) return false;
        if (at == 0) return true;
        if (parts[at].IsChild) return element.Parent is { } parent && Matches(parent, parts, at - 1);
        return element.Ancestors().Any(a => Matches(a, parts, at - 1));
    }

    private sealed record Rule(ImmutableArray<Part> Parts, ImmutableArray<(string Name, string Value)> Declarations, int Weight, int Order);

    private sealed record Part(bool IsChild, ImmutableArray<Test> Tests);

    private sealed record Test(bool Not, string Class, string Attribute, string? Value, string Element)
    {
        public bool Holds(XElement element) => Not != (
            Class.Length > 0 ? ((string?)element.Attribute("class"))?.Split(' ').Contains(Class) == true
            : Attribute.Length > 0 ? element.Attribute(Attribute) is { } a && (Value is null || a.Value == Value)
            : element.Name.LocalName == Element);
    }

    [GeneratedRegex(@"@media[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}")] private static partial Regex Media();
    [GeneratedRegex(@"(?<selector>[^{}]+)\{(?<body>[^{}]*)\}")] private static partial Regex Block();
    [GeneratedRegex(@">|[^\s>]+")] private static partial Regex Words();
    [GeneratedRegex(@"(?<not>:not\()?(?:\.(?<class>[\w-]+)|\[(?<attr>[\w-]+)(?:=(?<value>[^\]]+))?\]|(?<element>(?<![\w\].)-])[a-z]+))(?(not)\))")] private static partial Regex Simple();
}
