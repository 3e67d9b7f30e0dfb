using Microsoft.AspNetCore.Http;

namespace Dyewort.Web;

/// <summary>Tells the page that a second arrival of a form is led to, so that nobody believes it was done twice.</summary>
public static class SentBefore
{
    private const string Name = "dyewort-again";

    /// <summary>True once, on the first page after a form that had come before.</summary>
    public static bool IsToBeSaid(HttpContext http)
    {
        ArgumentNullException.ThrowIfNull(http);
        if (!http.Request.Cookies.ContainsKey(Name))
            return false;
        if (!http.Response.HasStarted)
            http.Response.Cookies.Delete(Name);
        return true;
    }

    internal static void Say(HttpResponse response) =>
        response.Cookies.Append(
            Name,
            "1",
            new()
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Strict,
                MaxAge = TimeSpan.FromSeconds(30),
                IsEssential = true,
            }
        );
}
