using Dyewort.Workshop.Chemistry;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Chemistry;

public sealed class ChemistryPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/jar", ([AsParameters] LiquidQuery query, DescribeJar describe) => Jar(query, describe));
        app.MapGet("/sums", (HttpRequest request, WorkASum work) => Sums(request.Query, work));
    }

    private static IResult Jar(LiquidQuery query, DescribeJar describe)
    {
        if (string.IsNullOrWhiteSpace(query.Volume))
            return Show.Page<LiquidPage>(new { Query = query with { Volume = "90 ml" } });
        var outcome = describe.Handle(
            new()
            {
                Volume = query.Volume,
                Liquor = query.Liquor,
                Temperature = query.Temperature,
                LiquorPh = query.LiquorPh,
                JarPh = query.JarPh,
                PhTool = query.PhTool,
                Additions = (query.Additions ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries),
            }
        );
        return outcome.TryGet(out var answer)
            ? Show.Page<LiquidPage>(
                new
                {
                    Query = query,
                    Answer = answer,
                    Reached = describe.Reaching(answer, query.Goal),
                }
            )
            : Show.Page<LiquidPage>(new { Query = query, Refused = outcome.Problems }, StatusCodes.Status422UnprocessableEntity);
    }

    private static IResult Sums(IQueryCollection query, WorkASum work)
    {
        var form = new WorkASumForm
        {
            Sum = query["Sum"],
            Salt = query["Salt"],
            SaltGrams = query["SaltGrams"],
            Alkali = query["Alkali"],
            LiquorMl = query["LiquorMl"],
            DryYieldGrams = query["DryYieldGrams"],
            Substance = query["Substance"],
            Doses = query["Doses"],
            Tool = query["Tool"],
            CopperasGrams = query["CopperasGrams"],
            TanninGrams = query["TanninGrams"],
            IronLiquorMl = query["IronLiquorMl"],
            GumParts = query["GumParts"],
            WaterParts = query["WaterParts"],
            GumPer100 = query["GumPer100"],
            InkMl = query["InkMl"],
            SpiritPercent = query["SpiritPercent"],
            GoalPercent = query["GoalPercent"],
        };
        if (string.IsNullOrEmpty(form.Sum))
            return Show.Page<SumsPage>();
        var outcome = work.Handle(form);
        return outcome.TryGet(out var answer)
            ? Show.Page<SumsPage>(new { Form = form, answer.Lines })
            : Show.Page<SumsPage>(new { Form = form, Refused = outcome.Problems }, StatusCodes.Status422UnprocessableEntity);
    }
}

/// <summary>What the jar page was asked.</summary>
public sealed record LiquidQuery(
    string? Volume,
    string? Liquor,
    string? Temperature,
    string? Additions,
    string? LiquorPh,
    string? JarPh,
    string? PhTool,
    string? Goal
);
