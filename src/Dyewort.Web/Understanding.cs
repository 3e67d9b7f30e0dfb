using System.Text;
using System.Text.Json;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web;

/// <summary>How what was typed was understood, carried from the form that was posted to the page that is shown next; and whose kitchen
/// that page is read in.</summary>
internal static class Understanding
{
    private const string Cookie = "dyewort-understood";
    private const int Most = 20;

    /// <summary>Tells every page whose spoons and cups the maker has, and what the form before it was taken to say.</summary>
    public static async Task Read(HttpContext http, RequestDelegate next)
    {
        if (http.GetEndpoint() is not null && !http.Request.Path.StartsWithSegments("/made", StringComparison.Ordinal))
            Words.Kitchen = (await http.RequestServices.GetRequiredService<NotebookSettings>().ReadAsync(http.RequestAborted)).Teaspoon;
        if (
            HttpMethods.IsGet(http.Request.Method)
            && http.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.OrdinalIgnoreCase)
            && http.Request.Cookies.TryGetValue(Cookie, out var carried)
        )
        {
            http.RequestServices.GetRequiredService<Typed>().Understood = Unpack(carried);
            http.Response.Cookies.Delete(Cookie, Options());
        }

        await next(http);
    }

    /// <summary>Carries sentences to the page that the answer leads to.</summary>
    public static void Carry(HttpContext http, IReadOnlyList<string> understood)
    {
        if (understood.Count > 0)
            http.Response.Cookies.Append(
                Cookie,
                WebEncoders.Base64UrlEncode(JsonSerializer.SerializeToUtf8Bytes(understood.Take(Most))),
                Options()
            );
    }

    private static CookieOptions Options() =>
        new()
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            MaxAge = TimeSpan.FromMinutes(2),
            Path = "/",
        };

    private static IReadOnlyList<string> Unpack(string carried)
    {
        try
        {
            return JsonSerializer.Deserialize<string[]>(Encoding.UTF8.GetString(WebEncoders.Base64UrlDecode(carried))) ?? [];
        }
        catch (Exception broken) when (broken is JsonException or FormatException)
        {
            return [];
        }
    }
}
