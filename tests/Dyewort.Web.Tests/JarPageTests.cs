using System.Net;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The jar and the sums, as a browser without script asks for them.</summary>
public sealed class JarPageTests(Browser browser) : IClassFixture<Browser>
{
    [Fact]
    public async Task The_jar_shows_its_ladder_and_its_warnings_and_keeps_what_was_typed_when_it_refuses()
    {
        using var client = new HttpClient { BaseAddress = browser.Address };
        Assert.Contains("What is in the jar", await client.GetStringAsync("jar"), StringComparison.Ordinal);
        var page = WebUtility.HtmlDecode(
            await client.GetStringAsync("jar?Volume=90+ml&Additions=citric+acid+%3D+1+g%0Abicarbonate+of+soda+%3D+1+g&Goal=5")
        );
        Assert.Contains("ph-ladder", page, StringComparison.Ordinal);
        Assert.Contains("It foams", page, StringComparison.Ordinal);
        Assert.Contains("To reach the pH you want", page, StringComparison.Ordinal);
        using var refused = await client.GetAsync(new Uri("jar?Volume=90+ml&Additions=moonshine+%3D+1+g", UriKind.Relative));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("moonshine = 1 g", WebUtility.HtmlDecode(await refused.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sum_answers_on_its_page_and_a_wrong_one_says_why()
    {
        using var client = new HttpClient { BaseAddress = browser.Address };
        var page = WebUtility.HtmlDecode(await client.GetStringAsync("sums?Sum=lake&Salt=alum&SaltGrams=10&Alkali=soda+ash&LiquorMl=500"));
        Assert.Contains("White body: 1.64 g dry", page, StringComparison.Ordinal);
        using var refused = await client.GetAsync(
            new Uri("sums?Sum=lake&Salt=salt&SaltGrams=10&Alkali=soda+ash&LiquorMl=500", UriKind.Relative)
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("holds no aluminium", WebUtility.HtmlDecode(await refused.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }
}
