using Dyewort.Quantities;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web;

/// <summary>What was typed into a form that was refused, and why: the page is shown again with both.</summary>
public sealed class Typed
{
    private IFormCollection? form;

    /// <summary>Everything that is wrong.</summary>
    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    /// <summary>How the form that was posted before this page was understood, where that is not what was typed.</summary>
    public IReadOnlyList<string> Understood { get; internal set; } = [];

    /// <summary>True while a refused form is being shown again.</summary>
    public bool Again => form is not null;

    /// <summary>The text of a field as it was typed, or the value it should start with.</summary>
    public string? Of(string name, string? otherwise) =>
        form is not null && form.TryGetValue(name, out var typed) ? typed.ToString() : otherwise;

    /// <summary>True when a box of that name and value was ticked; as given while nothing was posted.</summary>
    public bool Ticked(string name, string value, bool otherwise) => form is null ? otherwise : form[name].Contains(value);

    /// <summary>What is wrong with a field.</summary>
    public IEnumerable<Problem> ProblemsOf(string name) =>
        Problems.Where(problem => string.Equals(problem.Field, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>Where the refused form was posted; null while none was.</summary>
    public string? PostedTo { get; private set; }

    internal void Keep(IFormCollection posted, IReadOnlyList<Problem> problems, string? to = null) =>
        (PostedTo, form, Problems) = (to, posted, problems);
}
