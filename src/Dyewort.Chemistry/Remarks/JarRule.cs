namespace Dyewort.Chemistry;

/// <summary>One rule about jars: what it looks for, and what it then says.</summary>
internal abstract record JarRule
{
    protected const string Household = "general chemistry and household-safety teaching, from memory";
    protected const string Solver = "computed from the constants in the tables";

    /// <summary>What the rule says of a jar: nothing, one remark, or one for each thing it finds.</summary>
    public abstract IEnumerable<Remark> On(JarScene jar);
}

/// <summary>A rule that says one thing, or nothing.</summary>
/// <param name="Code">Stable, for machines.</param>
/// <param name="Source">The rule behind it and where it comes from.</param>
/// <param name="Weight">How loudly.</param>
internal abstract record OneRemark(string Code, string Source, RemarkWeight Weight = RemarkWeight.Note) : JarRule
{
    public sealed override IEnumerable<Remark> On(JarScene jar)
    {
        if (Say(jar) is { } text)
            yield return new(Code, text, Source, Weight);
    }

    /// <summary>One or two sentences in plain words; null where the rule does not apply.</summary>
    protected abstract string? Say(JarScene jar);
}
