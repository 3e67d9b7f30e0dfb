using System.Net;
using System.Text.RegularExpressions;

namespace Dyewort.Web.Tests;

/// <summary>Posts forms as a browser without scripts does.</summary>
internal sealed partial class Posting(Uri address) : IDisposable
{
    private readonly HttpClient client = new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() })
    {
        BaseAddress = address,
    };

    public HttpClient Client => client;

    public async Task<(HttpStatusCode Status, string Body, string? Next)> PostAsync(
        string page,
        string path,
        IReadOnlyDictionary<string, string> fields,
        byte[]? picture = null
    )
    {
        var token = Token().Match(await client.GetStringAsync(page)).Groups["token"].Value;
        using var form = new MultipartFormDataContent { { new StringContent(token), "__RequestVerificationToken" } };
        foreach (var (name, value) in fields)
            form.Add(new StringContent(value), name);
        if (picture is not null)
            form.Add(new ByteArrayContent(picture), "Picture", "IMG_0002.jpg");
        using var answer = await client.PostAsync(path, form);
        return (answer.StatusCode, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), answer.Headers.Location?.ToString());
    }

    public void Dispose() => client.Dispose();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Token();
}
