using Dyewort.Workshop.Find;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Find;

public sealed class FindPages : IPages
{
    public void Map(IEndpointRouteBuilder app) =>
        app.MapGet(
            "/find",
            async (string? q, FindAnything find, CancellationToken cancel) =>
            {
                var answer = await find.HandleAsync(q, cancel);
                return answer.Straight is { } straight
                    ? Results.LocalRedirect(Address.Of(straight))
                    : Show.Page<FindAnythingPage>(new { Answer = answer, Asked = q?.Trim() });
            }
        );
}
