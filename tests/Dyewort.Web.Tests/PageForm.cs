using System.Net;
using System.Text.RegularExpressions;

namespace Dyewort.Web.Tests;

/// <summary>A form as a browser without scripts would find it in a page.</summary>
/// <param name="Action">Where it goes.</param>
/// <param name="Posts">True for one that writes.</param>
/// <param name="Fields">In the page's order; a name may come more than once.</param>
internal sealed partial record PageForm(string Action, bool Posts, IReadOnlyList<PageField> Fields)
{
    /// <summary>Every form of a page.</summary>
    /// <param name="html">The page.</param>
    /// <param name="page">The page's own address: where a form without an action goes.</param>
    public static IReadOnlyList<PageForm> Of(string html, string page) =>
        [
            .. Form()
                .Matches(html)
                .Select(form => new PageForm(
                    Attribute(form.Groups["open"].Value, "action") is { Length: > 0 } action ? action : page,
                    string.Equals(Attribute(form.Groups["open"].Value, "method"), "post", StringComparison.OrdinalIgnoreCase),
                    FieldsOf(form.Groups["inside"].Value)
                )),
        ];

    /// <summary>The form as it stands, nothing typed and the first button pressed.</summary>
    public List<KeyValuePair<string, string>> AsItStands() =>
        [
            .. Fields
                .Where(field => field.Kind is not ("submit" or "file") && field.Value is not null)
                .Concat(Fields.Where(field => field is { Kind: "submit", Name.Length: > 0 }).Take(1))
                .Select(field => KeyValuePair.Create(field.Name, field.Value!)),
        ];

    /// <summary>The form with some fields filled in.</summary>
    public List<KeyValuePair<string, string>> With(params (string Name, string Value)[] typed)
    {
        var all = AsItStands();
        foreach (var (name, _) in typed)
            all.RemoveAll(field => field.Key == name);
        all.AddRange(typed.Select(field => KeyValuePair.Create(field.Name, field.Value)));
        return all;
    }

    private static List<PageField> FieldsOf(string inside)
    {
        var fields = new List<PageField>();
        foreach (Match match in Field().Matches(inside))
        {
            var open = match.Groups["open"].Value;
            if (Attribute(open, "name") is not { Length: > 0 } name || Has(open, "disabled"))
                continue;
            var content = match.Groups["content"].Value;
            switch (match.Groups["tag"].Value.ToUpperInvariant())
            {
                case "SELECT":
                    var options = Option().Matches(content).Select(option => option.Groups["open"].Value).ToList();
                    var values = options.ConvertAll(option => Attribute(option, "value") ?? "");
                    var chosen = options.FindIndex(option => Has(option, "selected"));
                    fields.Add(new(name, "select", values.Count == 0 ? null : values[Math.Max(chosen, 0)], values));
                    break;
                case "TEXTAREA":
                    fields.Add(new(name, "text", WebUtility.HtmlDecode(content), []));
                    break;
                case "BUTTON":
                    fields.Add(new(name, "submit", Attribute(open, "value") ?? "", []));
                    break;
                default:
                    var kind = Attribute(open, "type") ?? "text";
                    var value = Attribute(open, "value");
                    if (kind is "checkbox" or "radio")
                        fields.Add(new(name, kind, Has(open, "checked") ? value ?? "on" : null, [value ?? "on"]));
                    else
                        fields.Add(new(name, kind is "hidden" or "file" or "submit" or "date" ? kind : "text", value ?? "", []));
                    break;
            }
        }

        return fields;
    }

    private static string? Attribute(string open, string name)
    {
        var match = Regex.Match(
            open,
            $"\\s{name}=\"(?<value>[^\"]*)\"",
            RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture,
            TimeSpan.FromSeconds(1)
        );
        return match.Success ? WebUtility.HtmlDecode(match.Groups["value"].Value) : null;
    }

    private static bool Has(string open, string name) =>
        Regex.IsMatch(open, $"\\s{name}(\\s|=|/|>|$)", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1));

    [GeneratedRegex("<form\\b(?<open>[^>]*)>(?<inside>.*?)</form>", RegexOptions.Singleline | RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex Form();

    [GeneratedRegex(
        "<(?<tag>input)\\b(?<open>[^>]*)>|<(?<tag>select|textarea|button)\\b(?<open>[^>]*)>(?<content>.*?)</\\k<tag>>",
        RegexOptions.Singleline | RegexOptions.ExplicitCapture,
        5000
    )]
    private static partial Regex Field();

    [GeneratedRegex("<option\\b(?<open>[^>]*)>", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex Option();
}

/// <summary>One field of a form.</summary>
/// <param name="Name">What it is sent under.</param>
/// <param name="Kind">hidden, text, date, checkbox, radio, select, file or submit.</param>
/// <param name="Value">What is sent when nobody touches it; null for a box that is not ticked.</param>
/// <param name="Choices">What it offers.</param>
internal sealed record PageField(string Name, string Kind, string? Value, IReadOnlyList<string> Choices);
