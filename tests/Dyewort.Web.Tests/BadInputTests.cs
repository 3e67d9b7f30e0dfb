using System.Net;
using Dyewort.Readings;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Bad input gets a message beside its field, and nothing that was written is lost.</summary>
public sealed class BadInputTests(SeasonNotebook notebook) : IClassFixture<SeasonNotebook>
{
    public static TheoryData<string, string> Uploads =>
        new()
        {
            { "nothing", "No picture came." },
            { "text", "picture" },
            { "cut off", "" },
            { "another chart", "" },
        };

    [Theory, MemberData(nameof(Uploads))]
    public async Task A_bad_upload_says_why_and_loses_nothing(string kind, string says)
    {
        using var posting = new Posting(notebook.Address);
        var before = await CountAsync();
        var (status, body, _) = await posting.PostAsync(
            "/charts/C1",
            "/charts/C1/photo",
            new Dictionary<string, string> { ["State"] = "Exposed", ["TakenOn"] = "2025-03-01" },
            await PictureAsync(kind)
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("id=\"f-Picture-why\"", body, StringComparison.Ordinal);
        Assert.Contains(says, body, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("value=\"2025-03-01\"", body, StringComparison.Ordinal);
        Assert.Matches("value=\"Exposed\"[^>]*checked", body);
        Assert.DoesNotContain("   at Dyewort", body, StringComparison.Ordinal);
        Assert.Equal(before, await CountAsync());
    }

    [Theory]
    [InlineData("/pots/BB25-1/trials/new", "Jars", "90", "liquor are left")]
    [InlineData("/pots/BB25-1/trials/new", "VolumeMl", "-5", "less than nothing")]
    [InlineData("/pots/BB25-1/trials/new", "VolumeMl", "lots", "is not a number")]
    public async Task A_slip_in_a_form_keeps_what_was_typed(string page, string field, string typed, string says)
    {
        using var posting = new Posting(notebook.Address);
        var (status, body, _) = await posting.PostAsync(
            page,
            page,
            new Dictionary<string, string>
            {
                ["Jars"] = "8",
                ["VolumeMl"] = "20",
                ["Title"] = "second trial",
                [field] = typed,
            }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains(says, body, StringComparison.Ordinal);
        Assert.Contains($"value=\"{typed}\"", body, StringComparison.Ordinal);
        Assert.Contains("value=\"second trial\"", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_without_its_token_changes_nothing()
    {
        using var client = new HttpClient { BaseAddress = notebook.Address };
        using var form = new FormUrlEncodedContent(new Dictionary<string, string> { ["Plant"] = "Weld" });
        using var answer = await client.PostAsync("/pots/new", form);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("load the page again", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pages_answer_only_to_this_machine_and_carry_a_strict_policy()
    {
        using var client = new HttpClient { BaseAddress = notebook.Address };
        using var strange = new HttpRequestMessage(HttpMethod.Get, "/");
        strange.Headers.Host = "notebook.example";
        using var refused = await client.SendAsync(strange);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, refused.StatusCode);

        using var page = await client.GetAsync("/");
        Assert.Equal("nosniff", page.Headers.GetValues("X-Content-Type-Options").Single());
        var policy = page.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        using var missing = await client.GetAsync("/pots/ZZ99-9");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    private async Task<(int Photos, int Readings, int Files)> CountAsync()
    {
        await using var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        return (
            await db.Photos.CountAsync(),
            await db.Readings.CountAsync(),
            Directory.GetFiles(Path.Combine(notebook.Folder, "photos"), "*", SearchOption.AllDirectories).Length
        );
    }

    private async Task<byte[]?> PictureAsync(string kind)
    {
        switch (kind)
        {
            case "nothing":
                return null;
            case "text":
                return "this is a letter, not a picture"u8.ToArray();
            case "another chart":
                var plan = SheetPlan.Make(
                    new SheetWish
                    {
                        Page = PageSize.A5,
                        Columns = 2,
                        Rows = 2,
                        Code = "C9",
                        Number = 9,
                    }
                );
                Assert.True(plan.TryGet(out var other));
                return Imaging.SheetPicture.Draw(
                    other.Layout,
                    new Imaging.SheetShot { Paint = new Dictionary<string, Colour.Xyz>(), Paper = new(88, 92, 95) }
                );
            default:
                await using (
                    var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb()
                )
                {
                    var photo = await db.Photos.FirstAsync();
                    var whole = await File.ReadAllBytesAsync(
                        Path.Combine(notebook.Folder, "photos", photo.Sha256[..2], $"{photo.Sha256}.{photo.Extension}")
                    );
                    return whole[..(whole.Length / 2)];
                }
        }
    }
}
