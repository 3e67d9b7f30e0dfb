using System.Diagnostics.CodeAnalysis;

namespace Dyewort.Quantities;

/// <summary>One thing that is wrong with what was entered.</summary>
/// <param name="Field">The name of the field or option it stands in.</param>
/// <param name="What">One sentence: what is wrong, with what was typed.</param>
/// <param name="Remedy">One sentence: what to do instead.</param>
public sealed record Problem(string Field, string What, string Remedy)
{
    /// <summary>The two sentences as one line, as a command prints them.</summary>
    public override string ToString() => $"{What} {Remedy}";
}

/// <summary>A value, or every reason why what was entered does not give one.</summary>
/// <typeparam name="T">The value's type.</typeparam>
public sealed class Outcome<T>
    where T : notnull
{
    private readonly T? value;

    internal Outcome(T? value, IReadOnlyList<Problem> problems) => (this.value, Problems) = (value, problems);

    /// <summary>What is wrong; empty when there is a value.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    /// <summary>The first thing that is wrong, where one is enough to say; null when there is a value.</summary>
    public Problem? FirstProblem => Problems.Count > 0 ? Problems[0] : null;

    /// <summary>How quantities were understood, where that is not what stands in the text: “6 cups” is 1.42 L.</summary>
    public IReadOnlyList<string> Understood { get; internal init; } = [];

    /// <summary>Gives the value if there is one.</summary>
    public bool TryGet([MaybeNullWhen(false)] out T value)
    {
        value = this.value;
        return Problems.Count == 0;
    }
}

/// <summary>Makes outcomes.</summary>
public static class Outcome
{
    /// <summary>An outcome with a value.</summary>
    public static Outcome<T> Of<T>(T value)
        where T : notnull => new(value, []);

    /// <summary>An outcome with a value, and how what was typed was understood.</summary>
    public static Outcome<T> Of<T>(T value, IReadOnlyList<string> understood)
        where T : notnull => new(value, []) { Understood = understood };

    /// <summary>A refusal for one reason.</summary>
    public static Outcome<T> Refused<T>(string field, string what, string remedy)
        where T : notnull => new(default, [new Problem(field, what, remedy)]);

    /// <summary>A refusal for several reasons.</summary>
    /// <exception cref="ArgumentException">The list is empty.</exception>
    public static Outcome<T> Refused<T>(IReadOnlyList<Problem> problems)
        where T : notnull =>
        problems.Count > 0 ? new(default, problems) : throw new ArgumentException("A refusal needs a reason.", nameof(problems));
}
