using System.Text.Encodings.Web;
using System.Text.Json;
using Dyewort.Chemistry;

namespace Dyewort.Workshop.Chemistry;

/// <summary>A jar as machines read it.</summary>
public static class LiquidJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        WriteIndented = true,
    };

    public static string Write(DescribeJarAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var report = answer.Report;
        var state = report.AfterFizzing;
        // Six significant decimals: far beyond what is known, and enough for a machine to compare with.
        return JsonSerializer.Serialize(
            new
            {
                pH = Round(state.Ph),
                pHLow = Round(report.PhLow),
                pHHigh = Round(report.PhHigh),
                pHKnown = report.IsPhKnown,
                // What other programs that hold the same constants say.
                pHPlainConstants = new
                {
                    afterFizzing = Plain(answer, CarbonDioxide.AfterFizzing),
                    held = Plain(answer, CarbonDioxide.Sealed),
                    open = Plain(answer, CarbonDioxide.Open),
                },
                pHSealed = Round(report.Sealed.Ph),
                pHOpen = Round(report.Open.Ph),
                ionicStrengthMolPerL = Round(state.IonicStrength),
                volumeMl = Round(state.VolumeMillilitres),
                temperatureC = answer.Celsius,
                dissolved = state.Dissolved.Select(one => new
                {
                    name = one.Name,
                    gPerL = Round(one.GramsPerLitre),
                    molPerL = Round(one.MolesPerLitre),
                }),
                solids = Solids(state),
                solidsSealed = Solids(report.Sealed),
                solidsOpen = Solids(report.Open),
                gasMl = Round(state.GasMillilitres),
                gasWhereItFallsMl = Round(report.FizzMillilitres),
                headSpaceMl = Round(report.HeadSpaceMillilitres),
                alcoholPercentByVolume = Round(report.AlcoholPercent),
                bufferMmolPerLPerPh = Round(report.BufferMillimolesPerLitrePerPh),
                doubts = report.Shares.Select(share => new
                {
                    cause = share.Cause,
                    below = Round(share.Below),
                    above = Round(share.Above),
                }),
                additions = answer.Contents.Portions.Select(portion => new
                {
                    name = portion.Named.Name,
                    grams = Round(portion.Grams),
                    ml = Round(portion.Millilitres),
                }),
                warnings = report.Remarks.Select(remark => new
                {
                    code = remark.Code,
                    text = remark.Text,
                    rule = remark.Rule,
                    weight = remark.Weight.ToString().ToLowerInvariant(),
                }),
            },
            Options
        );
    }

    private static object Solids(JarState state) =>
        state.Solids.Select(one => new
        {
            name = one.Name,
            g = Round(one.Grams),
            key = one.Key,
            suspension = one.IsSuspension,
        });

    private static double? Plain(DescribeJarAnswer answer, CarbonDioxide gas) =>
        Jar.Equilibrate(answer.Contents, answer.Celsius, gas, JarModel.PlainConstants).TryGet(out var state) ? Round(state.Ph) : null;

    private static double Round(double value) => Math.Round(value, 6);
}
