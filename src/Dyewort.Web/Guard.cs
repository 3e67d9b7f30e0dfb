using System.Net;
using Dyewort.Store;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Dyewort.Web;

/// <summary>What every answer goes through.</summary>
internal static class Guard
{
    private const string Policy =
        "default-src 'none'; img-src 'self' data: blob:; style-src 'self'; font-src 'self'; script-src 'self'; connect-src 'self'; "
        + "manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    private const string StaleForm =
        "This form was opened too long ago, or in another browser. Go back, load the page again and send it once more.";

    /// <summary>What is said where another window took the number twice.</summary>
    internal const string Clash =
        "Something else was written into the notebook at the same moment. Look whether this is there; if not, send it once more.";

    /// <summary>Gives a refusal that the framework left empty its words.</summary>
    public static Task EmptyAnswers(HttpContext http) =>
        Show.Problem(
                http.Response.StatusCode,
                http.Response.StatusCode switch
                {
                    StatusCodes.Status400BadRequest => StaleForm,
                    StatusCodes.Status404NotFound => "There is no such page.",
                    StatusCodes.Status405MethodNotAllowed => "This address takes no such request.",
                    _ => "The request could not be understood.",
                }
            )
            .ExecuteAsync(http);

    public static Task Headers(HttpContext http, RequestDelegate next)
    {
        var headers = http.Response.Headers;
        headers.XContentTypeOptions = "nosniff";
        headers.ContentSecurityPolicy = Policy;
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "geolocation=(), microphone=(), payment=()";
        headers.CacheControl = "no-store";
        return next(http);
    }

    /// <summary>Answers only to names of this machine, so that a page elsewhere cannot point its own name at the notebook.</summary>
    public static Func<HttpContext, RequestDelegate, Task> HostOf(bool house)
    {
        var machine = Dns.GetHostName();
        return (http, next) =>
        {
            var name = http.Request.Host.Host;
            var known =
                string.Equals(name, "localhost", StringComparison.OrdinalIgnoreCase)
                || (IPAddress.TryParse(name.Trim('[', ']'), out var address) && (house || IPAddress.IsLoopback(address)))
                || (
                    house
                    && (
                        string.Equals(name, machine, StringComparison.OrdinalIgnoreCase)
                        || string.Equals(name, $"{machine}.local", StringComparison.OrdinalIgnoreCase)
                    )
                );
            if (known)
                return next(http);
            http.Response.StatusCode = StatusCodes.Status421MisdirectedRequest;
            return http.Response.WriteAsync("This notebook does not answer to that name.");
        };
    }

    /// <summary>Turns what went wrong into a page with a way on; the details go to the log under the reference that the page
    /// shows.</summary>
    public static async Task Faults(HttpContext http, RequestDelegate next)
    {
        try
        {
            await next(http);
        }
        catch (Exception caught) when (!http.Response.HasStarted && !Gone(http, caught))
        {
            // A form that could not be read has no token either.
            var problem = caught
                is AntiforgeryValidationException { InnerException: (InvalidDataException or BadHttpRequestException) and var unread }
                ? unread
                : caught;
            var (status, what) = problem switch
            {
                ClashException => (StatusCodes.Status409Conflict, Clash),
                RefusalException refusal => (StatusCodes.Status422UnprocessableEntity, string.Join(' ', refusal.Problems)),
                AntiforgeryValidationException => (StatusCodes.Status400BadRequest, StaleForm),
                BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } => (
                    StatusCodes.Status413PayloadTooLarge,
                    "That file is larger than 60 MB. Send a smaller picture; your phone's ordinary quality is enough."
                ),
                BadHttpRequestException bad => (bad.StatusCode, "The form could not be read. Load the page again and send it once more."),
                InvalidDataException => (
                    StatusCodes.Status413PayloadTooLarge,
                    "That form is larger than 60 MB. Send a smaller picture; your phone's ordinary quality is enough."
                ),
                _ => (
                    StatusCodes.Status500InternalServerError,
                    "Something went wrong here; nothing you wrote before is lost. Try again. If it happens again, the log has the "
                        + $"details under {http.TraceIdentifier}."
                ),
            };
            if (status >= 500)
            {
                http.RequestServices.GetRequiredService<ILoggerFactory>()
                    .CreateLogger("Dyewort.Web")
                    .LogError(problem, "{Reference}: {Method} {Path}", http.TraceIdentifier, http.Request.Method, http.Request.Path);
            }

            http.Response.Clear();
            await Headers(http, _ => Task.CompletedTask);
            await InNewScopeAsync(http, () => Show.Problem(status, what).ExecuteAsync(http));
        }
    }

    /// <summary>Whoever asked has gone; nobody reads an answer.</summary>
    private static bool Gone(HttpContext http, Exception problem) =>
        problem is OperationCanceledException && http.RequestAborted.IsCancellationRequested;

    /// <summary>What broke off leaves its services in the middle of it; what is done next is done with services of its own.</summary>
    internal static async Task InNewScopeAsync(HttpContext http, Func<Task> draw)
    {
        var broken = http.RequestServices;
        await using var scope = broken.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope();
        http.RequestServices = scope.ServiceProvider;
        try
        {
            await draw();
        }
        finally
        {
            http.RequestServices = broken;
        }
    }
}
