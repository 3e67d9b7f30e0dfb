using System.Net;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>One tab of a browser without scripts: it loads pages, and posts the forms that it found there.</summary>
internal sealed class Tab(Uri address) : IDisposable
{
    private readonly HttpClient client = new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() })
    {
        BaseAddress = address,
        Timeout = TimeSpan.FromMinutes(2),
    };

    public HttpClient Client => client;

    /// <summary>A page's status and text.</summary>
    public async Task<(HttpStatusCode Status, string Body)> LoadAsync(string page)
    {
        using var answer = await client.GetAsync(page);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }

    /// <summary>The one form of a page that posts to an address that ends so.</summary>
    public async Task<PageForm> FindAsync(string page, string action)
    {
        var (status, body) = await LoadAsync(page);
        Assert.Equal(HttpStatusCode.OK, status);
        return PageForm.Of(body, page).First(form => form.Posts && form.Action.EndsWith(action, StringComparison.Ordinal));
    }

    /// <summary>Posts fields; files lie under the names of their fields.</summary>
    public async Task<(HttpStatusCode Status, string Body, string? Next)> PostAsync(
        string action,
        IEnumerable<KeyValuePair<string, string>> fields,
        IReadOnlyDictionary<string, byte[]>? files = null,
        CancellationToken cancel = default
    )
    {
        using var form = new MultipartFormDataContent();
        foreach (var (name, value) in fields)
            form.Add(new StringContent(value), name);
        foreach (var (name, content) in files ?? new Dictionary<string, byte[]>())
            form.Add(new ByteArrayContent(content), name, "IMG_0002.jpg");
        using var answer = await client.PostAsync(action, form, cancel);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(cancel), answer.Headers.Location?.ToString());
    }

    public void Dispose() => client.Dispose();
}
