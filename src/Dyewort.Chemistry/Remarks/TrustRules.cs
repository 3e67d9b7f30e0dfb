using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Alcohol, which the model leaves out.</summary>
internal sealed record AlcoholModel() : OneRemark("alcohol-model", "general chemistry, from memory")
{
    protected override string? Say(JarScene jar) =>
        jar.Report.AlcoholPercent >= AlcoholVapour.LeastPercent
            ? "The pH was computed as if in water: alcohol shifts it, and makes gum, alum and other salts fall out."
            : null;
}

/// <summary>What the jar holds that nobody can put into the sums.</summary>
internal sealed record NotInTheSums() : OneRemark("outside-the-sums", "nothing is known of what it does to a pH", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Report.IsPhKnown
            ? null
            : $"{Said.Capital(string.Join(" and ", jar.Report.OutsideTheSums))} cannot be put into these sums, so the pH of this jar "
                + "is not known: test it with a strip. What is said here is of the rest alone.";
}

/// <summary>Alum solutions read lower than their constants say.</summary>
internal sealed record AlumModel()
    : OneRemark("model-alum", "pharmacopoeia test of a 5 % solution, pH 3.0 to 3.5; the missing species is fitted to it, not proven")
{
    protected override string? Say(JarScene jar) =>
        jar.Has("Al+3") && jar.Has("SO4-2") && jar.Report.PlainConstantsPh - jar.Ph > 0.2
            ? "Real alum solutions read pH 3 to 3.5. The published constants alone would say "
                + InvariantText.Of($"{jar.Report.PlainConstantsPh:0.0} here: the figure is corrected for what they miss.")
            : null;
}

/// <summary>Iron(II) salts always hold some iron(III).</summary>
internal sealed record IronModel()
    : OneRemark("model-iron", "published pH 3 to 4 for 50 g/L; the pharmacopoeia allows a trace of iron(III)")
{
    protected override string? Say(JarScene jar) =>
        jar.Has("Fe+2") && jar.Report.PlainConstantsPh - jar.Ph > 0.2
            ? "Real iron(II) salt always holds a trace of iron(III), which makes it much sourer than the pure salt "
                + InvariantText.Of($"(pH {jar.Report.PlainConstantsPh:0.0} by the constants alone): that trace is counted here. ")
                + "Brown crystals are sourer still."
            : null;
}

/// <summary>More salt than the activity formula was made for.</summary>
internal sealed record OutsideRange() : OneRemark("outside-range", "Davies formula, fitted below about 0.5 mol/L", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.State.IonicStrength > 0.5
            ? InvariantText.Of(
                $"So much salt is dissolved (ionic strength {jar.State.IonicStrength:0.0} mol/L) that the activity formula is outside "
            ) + "its range: the pH is a rough one."
            : null;
}

/// <summary>Tannic acid has no one constant.</summary>
internal sealed record TanninNotComputed() : OneRemark("tannin-not-computed", "a 1 % solution reads about pH 3.5, from memory")
{
    protected override string? Say(JarScene jar) =>
        jar.Portions.Any(portion => portion.Substance is { Form: SubstanceForm.Inert } one && one.IsAny(SubstanceClasses.Tannin))
            ? "Tannic acid is a mixture without one acid constant: its acidity is a guess, from what a 1 % solution usually reads."
            : null;
}

/// <summary>Liquids whose strength nobody stated.</summary>
internal sealed record UnstatedStrength : JarRule
{
    public override IEnumerable<Remark> On(JarScene jar)
    {
        foreach (var (substance, strength, isStated) in jar.Portions.Select(portion => portion.Named))
        {
            if (strength is null || isStated)
                continue;
            yield return substance.IsAny(SubstanceClasses.StrengthUncertain)
                ? new(
                    "unknown-strength",
                    $"The strength of {substance.Name} is a guess ({strength.Words}); such liquids differ widely. Test it once and "
                        + $"state it.",
                    strength.Source,
                    RemarkWeight.Caution
                )
                : new(
                    "usual-strength",
                    $"{Said.Capital(substance.Name)} was taken as {strength.Words}, the usual strength; read the label and state it "
                        + $"if it differs.",
                    strength.Source,
                    RemarkWeight.Note
                );
        }
    }
}

/// <summary>A plant liquor whose pH nobody has noted.</summary>
internal sealed record UntestedLiquor : JarRule
{
    public override IEnumerable<Remark> On(JarScene jar)
    {
        if (jar.Contents.Liquor is Liquor.Extract { Belief: { NoteCount: 0 } buffer })
            yield return new(
                "untested-liquor",
                $"{buffer.Words()} Test its pH before and after one addition: the first shows where it stands, the second how firmly.",
                buffer.Kind.Source,
                RemarkWeight.Note
            );
    }
}

/// <summary>A pH that nothing holds.</summary>
internal sealed record WeaklyHeld() : OneRemark("weakly-held", "buffer capacity below 1 mmol/L per pH unit")
{
    protected override string? Say(JarScene jar) =>
        jar.Report.BufferMillimolesPerLitrePerPh < 1 && jar.Contents.Liquor is not Liquor.Extract
            ? "Hardly anything holds this pH: a breath of air or a drop of vinegar moves it, and a strip will not settle."
            : null;
}

/// <summary>Ammonia that leaves, and takes the pH with it.</summary>
internal sealed record AmmoniaLeaves() : OneRemark("ammonia-leaves", Household)
{
    protected override string? Say(JarScene jar) =>
        jar.Holds(SubstanceClasses.Ammonia) && jar.Ph > 9
            ? "Ammonia leaves an open jar and the drying paper, and the pH falls with it; that is not in the figure for standing open."
            : null;
}
