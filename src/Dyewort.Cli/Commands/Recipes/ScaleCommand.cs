using System.ComponentModel;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Workshop;
using Dyewort.Workshop.Recipes;
using Microsoft.Extensions.DependencyInjection;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Recipes;

/// <summary>Carries a recipe to another volume.</summary>
public sealed partial class ScaleCommand : AsyncCommand<ScaleSettings>
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public override async Task<int> ExecuteAsync(CommandContext context, ScaleSettings settings, CancellationToken cancellationToken)
    {
        var form =
            RecipeCode().IsMatch(settings.Recipe.Trim()) && !File.Exists(settings.Recipe)
                ? await OpenNotebook.WithAsync<IServiceProvider, Outcome<ScaleRecipeForm>>(
                    settings.Notebook,
                    services => KeptAsync(services, settings, cancellationToken),
                    cancellationToken
                )
                : ScaleRecipeForm.Parse(
                    InputFile.ReadOrTake("recipe", settings.Recipe),
                    settings.To,
                    settings.Teaspoon,
                    settings.ScaleStep
                );
        var answer = new ScaleRecipe().Handle(form.OrRefuse()).OrRefuse();
        if (settings.Json)
            Console.Out.WriteLine(ToJson(answer));
        else
            Say(answer);
        return Program.Done;
    }

    private static async Task<Outcome<ScaleRecipeForm>> KeptAsync(
        IServiceProvider services,
        ScaleSettings settings,
        CancellationToken cancel
    )
    {
        var code = settings.Recipe.Trim().ToUpperInvariant();
        var usual = await services.GetRequiredService<NotebookSettings>().ReadAsync(cancel);
        return await services.GetRequiredService<ShowRecipe>().HandleAsync(code, cancel) is { } answer
            ? ScaleRecipeForm.Of(answer.View, settings.To, usual.Teaspoon, settings.ScaleStep)
            : Outcome.Refused<ScaleRecipeForm>(
                "recipe",
                $"There is no recipe {settings.Recipe} in this notebook.",
                "Look the code up on the recipes page."
            );
    }

    private static void Say(ScaleRecipeAnswer answer)
    {
        var scaled = answer.Scaled;
        Console.Out.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{scaled.From} → {scaled.To}: {Figures.Say(scaled.Factor, 4)} times")
        );
        var names = scaled.Lines.Select(line => line.Name.Length).DefaultIfEmpty(0).Max();
        foreach (var line in scaled.Lines)
        {
            var parts = new List<string>();
            if (line.Grams is { } grams)
                parts.Add(grams.ToString());
            if (Weighed(answer, line) is { } weighed)
                parts.Add(
                    weighed.Weighed.Grams > 0
                        ? $"on your scale {weighed.Weighed} ({Error(weighed.ErrorPercent)})"
                        : "too little for your scale"
                );
            if (line.Amount.Unit is AmountUnit.Drop or AmountUnit.Piece || (line.Grams is null && line.Spoons is null))
                parts.Add(line.Amount.ToString());
            if (line.Spoons is { } spoons)
                parts.Add($"{spoons} ({Error(line.SpoonErrorPercent!.Value)})");
            if (line.Remark is { } remark)
                parts.Add(remark);
            Console.Out.WriteLine($"  {line.Name.PadRight(names)}  {string.Join("; ", parts)}");
        }

        if (scaled.Nearby is { } nearby)
            Console.Out.WriteLine($"At {nearby.Volume} the spoons come out whole: {string.Join(", ", nearby.Lines)}.");
        foreach (var caution in answer.Cautions)
            Console.Error.WriteLine(caution);
    }

    private static string Error(double percent) =>
        Math.Abs(percent) < 0.05 ? "exactly" : string.Create(CultureInfo.InvariantCulture, $"{percent:+0.0;−0.0} %");

    private static (Mass Weighed, double ErrorPercent)? Weighed(ScaleRecipeAnswer answer, ScaledLine line) =>
        answer.ScaleStep is { } step && line.Amount.Unit is not (AmountUnit.Drop or AmountUnit.Piece) ? line.OnAScale(step) : null;

    private static string ToJson(ScaleRecipeAnswer answer) =>
        JsonSerializer.Serialize(
            new
            {
                fromMl = answer.Scaled.From.Millilitres,
                toMl = answer.Scaled.To.Millilitres,
                factor = answer.Scaled.Factor,
                lines = answer.Scaled.Lines.Select(line => new
                {
                    name = line.Name,
                    entered = line.Entered.Text,
                    amount = line.Amount.ToString(),
                    grams = line.Grams?.Grams,
                    ml = line.Millilitres?.Millilitres,
                    spoons = line.Spoons?.ToString(),
                    teaspoons = line.Spoons?.Teaspoons,
                    spoonErrorPercent = line.SpoonErrorPercent,
                    weighedGrams = Weighed(answer, line)?.Weighed.Grams,
                    weighedErrorPercent = Weighed(answer, line)?.ErrorPercent,
                    remark = line.Remark,
                }),
                nearby = answer.Scaled.Nearby is { } nearby ? new { volumeMl = nearby.Volume.Millilitres, lines = nearby.Lines } : null,
                cautions = answer.Cautions,
            },
            Json
        );

    [GeneratedRegex("^[Rr][0-9]{1,6}$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex RecipeCode();
}

public sealed class ScaleSettings : CommandSettings
{
    [
        CommandArgument(0, "<RECIPE>"),
        Description(
            "A line such as “90ml: bicarbonate of soda=1/4 tsp, alum=2 g”, a JSON file, or the code of a recipe in the notebook such as R7."
        )
    ]
    public string Recipe { get; init; } = "";

    [CommandOption("--to <VOLUME>"), Description("The new volume of liquor, such as 1.5L.")]
    public string? To { get; init; }

    [CommandOption("--teaspoon <KIND>"), Description("Which teaspoon: metric (5 ml, when not given), US or imperial.")]
    public string? Teaspoon { get; init; }

    [CommandOption("--scale <STEP>"), Description("The smallest step your scale shows, such as 1g; then its rounding is said too.")]
    public string? ScaleStep { get; init; }

    [CommandOption("--notebook <DIR>"), Description("The notebook's folder, for a recipe's code; ~/Dyewort unless you say otherwise.")]
    public string? Notebook { get; init; }

    [CommandOption("--json"), Description("Answer as JSON.")]
    public bool Json { get; init; }
}
