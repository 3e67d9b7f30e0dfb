using System.Text.Json;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Testing;
using Dyewort.Workshop;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Cli.Tests;

/// <summary>The commands as a maker runs them, in a process of their own.</summary>
public sealed class PrintCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("dyewort-cli").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private (int ExitCode, string Output, string Error) Run(params string[] arguments) =>
        Tool.Run("dotnet", [Path.Combine(AppContext.BaseDirectory, "dyewort.dll"), .. arguments], TimeSpan.FromSeconds(60), folder);

    [Fact]
    public void A_sheet_and_its_layout_are_written()
    {
        var (code, output, error) = Run("sheet", "--cells", "4x6", "--page", "A5", "--out", "sheet.pdf", "--layout", "sheet.json");
        Assert.Equal((0, ""), (code, error));
        Assert.StartsWith("sheet.pdf: 24 cells", output, StringComparison.Ordinal);
        Assert.Equal("%PDF"u8.ToArray(), File.ReadAllBytes(Path.Combine(folder, "sheet.pdf"))[..4]);
        using var layout = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "sheet.json")));
        Assert.Equal(148, layout.RootElement.GetProperty("page").GetProperty("widthMm").GetDouble());
        Assert.Equal(4, layout.RootElement.GetProperty("markers").GetArrayLength());
        Assert.Equal("A1", layout.RootElement.GetProperty("cells")[0].GetProperty("id").GetString());
        Assert.Equal(4, layout.RootElement.GetProperty("cells")[0].GetProperty("polygonMm").GetArrayLength());
    }

    [Theory]
    [InlineData("sheet --cells 9x40 --page A6 --out sheet.pdf", "does not fit")]
    [InlineData("sheet --cells 4x6 --page A5", "--out")]
    [InlineData("sheet --cells 4x6 --page A5 --out no/such/folder/sheet.pdf", "folder")]
    [InlineData("sheet --cells 4x6 --out sheet.pdf --colour red", "colour")]
    [InlineData("scale 90ml:alum=2g --to -1L", "less than nothing")]
    [InlineData("scale 90ml:alum=2g", "no amount")]
    [InlineData("scale missing.json --to 1L", "no file")]
    [InlineData("labels missing.json --out labels.pdf", "no file")]
    [InlineData("chart missing.json --out chart.pdf", "no file")]
    public void Bad_input_gets_a_clear_line_and_exit_2_and_no_file(string arguments, string part)
    {
        var (code, output, error) = Run(arguments.Split(' '));
        Assert.Equal((2, ""), (code, output));
        Assert.Contains(part, error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(folder));
    }

    [Fact]
    public void A_recipe_is_scaled_for_machines_too()
    {
        var (code, output, _) = Run("scale", "90ml: bicarbonate of soda=1/4 tsp", "--to", "1.5L", "--json");
        Assert.Equal(0, code);
        using var answer = JsonDocument.Parse(output);
        Assert.Equal("1 tbsp + 1⅛ tsp", answer.RootElement.GetProperty("lines")[0].GetProperty("spoons").GetString());
        Assert.Equal(-1, answer.RootElement.GetProperty("lines")[0].GetProperty("spoonErrorPercent").GetDouble(), 0.001);
        Assert.Equal(1440, answer.RootElement.GetProperty("nearby").GetProperty("volumeMl").GetDouble(), 1e-9);
    }

    [Fact]
    public void Labels_are_written_and_the_rules_for_selling_are_spoken_of_aside()
    {
        File.WriteAllText(
            Path.Combine(folder, "bottles.json"),
            """[{"code":"AAC-AD7","name":"Dusk","contains":["copperas"],"made":"2025-10-18"}]"""
        );
        var (code, output, error) = Run("labels", "bottles.json", "--out", "labels.pdf", "--json");
        Assert.Equal(0, code);
        using var answer = JsonDocument.Parse(output);
        Assert.Contains("Not for eating", answer.RootElement[0].GetProperty("warnings")[0].GetString(), StringComparison.Ordinal);
        Assert.Contains("safety data sheets", error, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(folder, "labels.pdf")));
    }

    [Fact]
    public async Task Recipes_and_batches_of_the_notebook_are_known_by_their_codes()
    {
        var notebook = Path.Combine(folder, "notebook");
        var now = new DateTimeOffset(2025, 10, 18, 9, 0, 0, TimeSpan.Zero);
        await using (var services = await Desk.OpenAsync(notebook, TimeProvider.System, default))
        {
            var db = services.GetRequiredService<NotebookDb>();
            var recipe = new Recipe
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Code = "R1",
                Name = "Dusk Elder",
                BaseVolumeMl = 90,
            };
            var step = new RecipeStep
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                RecipeId = recipe.Id,
                Step = 1,
                Name = "alum",
                Amount = MeasuredAmount.Of(Amount.Of(2, AmountUnit.Gram), 2),
            };
            var batch = new Batch
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Number = 1,
                Code = BottleCode.ForBatch(1),
                RecipeId = recipe.Id,
                MadeOn = new(2025, 10, 18),
                PlannedLiquorMl = 900,
            };
            db.AddRange(recipe, step, batch);
            for (var number = 1; number <= 2; number++)
                db.Add(
                    new Bottle
                    {
                        Id = Guid.CreateVersion7(now),
                        WrittenAt = now,
                        BatchId = batch.Id,
                        Number = number,
                        Code = BottleCode.ForBottle(1, number),
                        FillMl = 29,
                        FilledOn = new(2025, 10, 18),
                    }
                );
            await db.SaveChangesAsync();
        }

        var (code, output, error) = Run("scale", "R1", "--to", "900ml", "--notebook", notebook, "--json");
        Assert.True(code == 0, error);
        using (var answer = JsonDocument.Parse(output))
            Assert.Equal(20, answer.RootElement.GetProperty("lines")[0].GetProperty("grams").GetDouble(), 1e-9);

        (code, output, error) = Run(
            "labels",
            BottleCode.ForBatch(1),
            "--notebook",
            notebook,
            "--site",
            "http://192.168.1.7:5077",
            "--out",
            "labels.pdf",
            "--json"
        );
        Assert.True(code == 0, error);
        using (var answer = JsonDocument.Parse(output))
        {
            Assert.Equal(2, answer.RootElement.GetArrayLength());
            Assert.Equal(
                $"http://192.168.1.7:5077/b/{BottleCode.ForBottle(1, 1)}",
                answer.RootElement[0].GetProperty("square").GetString()
            );
        }

        Assert.Equal(2, Run("scale", "R9", "--to", "900ml", "--notebook", notebook).ExitCode);
        Assert.Equal(2, Run("scale", "R1", "--to", "900ml", "--notebook", Path.Combine(folder, "none")).ExitCode);
    }
}
