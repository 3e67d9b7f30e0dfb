namespace Dyewort.Notebook;

/// <summary>What is to go into a jar that was set out by a plan, kept in the jar's own words until the maker says otherwise.</summary>
public static class SamplePlan
{
    private const string Opening = "to add: ";
    private const string Mixing = "to mix: ";
    private const string Nothing = "nothing";
    private const string Between = " + ";

    /// <summary>A plan in words: "to add: alum 0.4 g + chalk 0.1 g".</summary>
    /// <param name="steps">Material and amount of each step, in order; none for the plain liquor.</param>
    public static string Say(IEnumerable<(string Material, string Amount)> steps)
    {
        var words = string.Join(Between, steps.Select(step => $"{step.Material} {step.Amount}"));
        return Opening + (words.Length == 0 ? Nothing : words);
    }

    /// <summary>A mixture in words: "to mix: 12.5 ml of EB25-1 A5 + 7.5 ml of EB25-1 A4".</summary>
    public static string Mix(IEnumerable<string> parts) => Mixing + string.Join(Between, parts);

    /// <summary>True for words that are a plan and not a colour's name.</summary>
    public static bool Is(string? said) =>
        said is not null && (said.StartsWith(Opening, StringComparison.Ordinal) || said.StartsWith(Mixing, StringComparison.Ordinal));

    /// <summary>The plan without its opening: "alum 0.4 g + chalk 0.1 g"; null where the words are no plan.</summary>
    public static string? Words(string? said) => Is(said) ? said![(said!.IndexOf(':', StringComparison.Ordinal) + 2)..] : null;

    /// <summary>The steps of a plan.</summary>
    /// <param name="said">The jar's words.</param>
    /// <param name="materials">Names that may stand in it.</param>
    /// <returns>Empty for no plan, for the plain liquor, and for a step whose material was renamed since.</returns>
    public static IReadOnlyList<(string Material, string Amount)> Steps(string? said, IEnumerable<string> materials)
    {
        if (Words(said) is not { } words || words == Nothing)
            return [];
        var names = materials.OrderByDescending(name => name.Length).ToList();
        return
        [
            .. words
                .Split(Between)
                .Select(step => (Step: step, Name: names.Find(name => step.StartsWith(name + " ", StringComparison.OrdinalIgnoreCase))))
                .Where(one => one.Name is not null)
                .Select(one => (one.Name!, one.Step[(one.Name!.Length + 1)..])),
        ];
    }
}
