using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Dyewort.Web.Components;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Every address that takes a form, found among the program's own: what is no form gets a sentence, never a fault.</summary>
public sealed partial class EveryPostTests
{
    [Fact]
    public async Task A_post_without_fields_or_of_another_kind_is_answered_with_a_sentence()
    {
        await using var own = await OwnNotebook.OpenAsync();
        var posts = await PostsAsync(own);
        Assert.True(posts.Count > 110, $"Only {posts.Count} addresses were tried.");
        var wrong = new List<string>();
        var done = 0;
        using var tab = new Tab(own.Address);
        var token = (await tab.FindAsync("/settings", "/settings"))
            .AsItStands()
            .Single(field => field.Key.StartsWith("__", StringComparison.Ordinal));
        foreach (var path in posts)
        {
            foreach (var (kind, content) in Contents(token))
            {
                using var request = new HttpRequestMessage(HttpMethod.Post, path);
                request.Content = content;
                if (kind.StartsWith("with", StringComparison.Ordinal))
                    request.Headers.Add("RequestVerificationToken", token.Value);
                using var answer = await tab.Client.SendAsync(request);
                var body = await answer.Content.ReadAsStringAsync();
                var status = (int)answer.StatusCode;
                if (status == 302 && kind is "only the token" or "with nothing in it")
                    done++;
                else if (status is < 400 or >= 500 || !Sentence().IsMatch(body))
                    wrong.Add($"{path}, {kind}: {status}");
            }
        }

        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
        Assert.True(done > 0, "Deeds that need no field were not done.");
    }

    [Fact]
    public async Task Every_address_that_takes_a_form_asks_for_the_token()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var stranger = new HttpClient { BaseAddress = own.Address };
        foreach (var path in await PostsAsync(own))
        {
            using var form = new FormUrlEncodedContent([KeyValuePair.Create("Words", "from elsewhere")]);
            using var answer = await stranger.PostAsync(path, form);
            Assert.True(answer.StatusCode == HttpStatusCode.BadRequest, $"{path}: {answer.StatusCode}");
        }
    }

    [Fact]
    public async Task A_page_that_breaks_off_while_it_is_drawn_is_answered_with_a_page()
    {
        await using var own = await OwnNotebook.OpenAsync(app => app.MapGet("/broken", () => Show.Page<Broken>()));
        using var tab = new Tab(own.Address);
        var (status, body) = await tab.LoadAsync("/broken");
        Assert.Equal(HttpStatusCode.InternalServerError, status);
        Assert.Contains("nothing you wrote before is lost", body, StringComparison.Ordinal);
        Assert.Contains("<title>That did not work</title>", body, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await tab.LoadAsync("/")).Status);
    }

    private static IEnumerable<(string Kind, HttpContent? Content)> Contents(KeyValuePair<string, string> token)
    {
        yield return ("only the token", new FormUrlEncodedContent([token]));
        yield return ("nothing", null);
        yield return ("no token", new FormUrlEncodedContent([]));
        yield return ("with nothing in it", new FormUrlEncodedContent([]));
        yield return ("another kind", new StringContent("{\"Words\":\"no form\"}", MediaTypeHeaderValue.Parse("application/json")));
        yield return ("with token, another kind", new StringContent("no form", MediaTypeHeaderValue.Parse("text/plain")));
        yield return (
            "parts without an end",
            new StringContent("--x\r\nContent-Disposition: form-data; name=\"Words\"\r\n\r\nhalf", Kind("multipart/form-data; boundary=x"))
        );
        yield return ("parts without a boundary", new StringContent("half", Kind("multipart/form-data")));
    }

    private static MediaTypeHeaderValue Kind(string text) => MediaTypeHeaderValue.Parse(text);

    /// <summary>Every address of the program that takes a form, once with what is there and once with what is not.</summary>
    private static async Task<List<string>> PostsAsync(OwnNotebook own)
    {
        var names = await own.LookAsync(async db => new Dictionary<string, string>
        {
            ["/b/code"] = await db.Bottles.Select(one => one.Code).FirstAsync(),
            ["/batches/code"] = await db.Batches.Select(one => one.Code).FirstAsync(),
            ["/recipes/code"] = await db.Recipes.Select(one => one.Code).FirstAsync(),
            ["/pots/code"] = "BB25-1",
            ["/plants/plant"] = "black bean",
            ["letter"] = "A",
            ["jar"] = "A1",
            ["number"] = "1",
            ["step"] = "1",
            ["/lots/id"] = $"{await db.PlantLots.Select(one => one.Id).FirstAsync()}",
            ["/pantry/id"] = $"{await db.Materials.Where(one => one.Name.Contains("paper")).Select(one => one.Id).FirstAsync()}",
            ["/charts/id"] = $"{await db.Photos.Where(one => one.ChartId != null).Select(one => one.Id).FirstAsync()}",
        });
        return
        [
            .. own
                .Services.GetRequiredService<EndpointDataSource>()
                .Endpoints.OfType<RouteEndpoint>()
                .Where(endpoint => endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("POST") == true)
                .Select(endpoint => endpoint.RoutePattern.RawText!)
                .SelectMany(path => new[] { Filled(path, names), Filled(path, []) })
                .Distinct(StringComparer.Ordinal),
        ];
    }

    private static string Filled(string path, Dictionary<string, string> names) =>
        Parameter()
            .Replace(
                path,
                match =>
                {
                    var name = match.Groups["name"].Value;
                    var place = "/" + path.Split('/')[1] + "/" + name;
                    return names.TryGetValue(place, out var known) || names.TryGetValue(name, out known) ? Uri.EscapeDataString(known)
                        : path.Contains($"{{{name}:guid}}", StringComparison.Ordinal) ? $"{Guid.Empty}"
                        : path.Contains($"{{{name}:int}}", StringComparison.Ordinal) ? "77"
                        : "ZZ99-9";
                }
            );

    [GeneratedRegex("<main id=\"main\">.*<p>[A-Z“][^<]{10,}", RegexOptions.Singleline, 1000)]
    private static partial Regex Sentence();

    [GeneratedRegex(@"\{(?<name>\w+)(:\w+)?\}", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Parameter();

    [Layout(typeof(MainLayout))]
    private sealed class Broken : ComponentBase
    {
        protected override void BuildRenderTree(RenderTreeBuilder builder)
        {
            builder.OpenComponent<Microsoft.AspNetCore.Components.Web.PageTitle>(0);
            builder.AddAttribute(1, "ChildContent", (RenderFragment)(inside => inside.AddContent(0, "Broken")));
            builder.CloseComponent();
            builder.OpenComponent<BrokenInside>(2);
            builder.CloseComponent();
        }
    }

    private sealed class BrokenInside : ComponentBase
    {
        protected override void OnParametersSet() => throw new InvalidOperationException("This page breaks off on purpose.");
    }
}
