using System.Security.Cryptography;
using System.Text;
using Dyewort.Store;
using Dyewort.Web.Components;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web;

/// <summary>The door that every form passes. One form is written down once, however often it comes; two forms that come at one moment are
/// written one after the other; and what was begun is done, even when the phone that sent it has gone.</summary>
internal sealed class Once
{
    /// <summary>The first is the desk at which everything is written; reading a photo takes seconds, so forms with a file pass beside it,
    /// and two of one kind still meet at one door.</summary>
    private readonly SemaphoreSlim[] doors = [.. Enumerable.Range(0, 16).Select(_ => new SemaphoreSlim(1, 1))];

    public async Task PassAsync(HttpContext http, RequestDelegate next)
    {
        if (
            !HttpMethods.IsPost(http.Request.Method)
            || http.GetEndpoint()?.Metadata.GetMetadata<IAntiforgeryMetadata>() is not { RequiresValidation: true }
        )
        {
            await next(http);
            return;
        }

        if (http.Features.Get<IAntiforgeryValidationFeature>() is { IsValid: false } unknown)
            throw unknown.Error ?? new AntiforgeryValidationException("The form carries no token.");
        if (!http.Request.HasFormContentType)
            throw new BadHttpRequestException("This is no form.", StatusCodes.Status415UnsupportedMediaType);
        var form = await http.Request.ReadFormAsync(http.RequestAborted);
        var mark = form[FormMark.Name] is [{ Length: > 0 }] ? await MarkAsync(http.Request, form) : null;
        var door = form.Files.Any(file => file.Length > 0)
            ? doors[1 + ((uint)StringComparer.Ordinal.GetHashCode(mark ?? http.TraceIdentifier) % (doors.Length - 1))]
            : doors[0];
        await door.WaitAsync(http.RequestAborted);
        try
        {
            // A second tap makes a browser drop the first request: half a deed would be worse than one that nobody waited for.
            http.RequestAborted = CancellationToken.None;
            if (mark is null)
                await LastTryAsync(http, next);
            else
                await AnswerAsync(http, next, mark);
        }
        finally
        {
            door.Release();
        }
    }

    /// <summary>True where a form whose number was taken by another window is to be shown again; before that it is answered once more, from
    /// what stands in the notebook then.</summary>
    internal static bool IsLastTry(HttpContext http) => http.Items.ContainsKey(nameof(LastTryAsync));

    private static Task LastTryAsync(HttpContext http, RequestDelegate next)
    {
        http.Items[nameof(LastTryAsync)] = true;
        return next(http);
    }

    private static async Task AnswerAsync(HttpContext http, RequestDelegate next, string mark)
    {
        try
        {
            await TryAsync(http, next, mark);
        }
        catch (ClashException) when (!http.Response.HasStarted && !http.RequestServices.GetRequiredService<AnswerOnce>().HasWritten)
        {
            await Guard.InNewScopeAsync(http, () => TryAsync(http, again => LastTryAsync(again, next), mark));
        }
    }

    private static async Task TryAsync(HttpContext http, RequestDelegate next, string mark)
    {
        var forms = http.RequestServices.GetRequiredService<AnswerOnce>();
        if (await forms.LedToAsync(mark, CancellationToken.None) is { } before)
        {
            SentBefore.Say(http.Response);
            http.Response.Redirect(before);
            return;
        }

        forms.Expect(mark, PageOf(http.Request));
        string? ledTo = null;
        try
        {
            await next(http);
            if (http.Response.StatusCode == StatusCodes.Status302Found)
                ledTo = http.Response.Headers.Location;
        }
        finally
        {
            if (ledTo is not null)
                await forms.DoneAsync(ledTo);
            else
                await forms.RefusedAsync();
        }
    }

    /// <summary>The mark of the page's form, and what was put into it: another button of a page that came back from the browser's memory
    /// is another deed.</summary>
    private static async Task<string> MarkAsync(HttpRequest request, IFormCollection form)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        void Add(string? text)
        {
            var bytes = Encoding.UTF8.GetBytes(text ?? "");
            hash.AppendData(BitConverter.GetBytes(bytes.Length));
            hash.AppendData(bytes);
        }

        Add(request.Path + request.QueryString);
        foreach (var (name, values) in form.Where(field => !IsToken(field.Key)).OrderBy(field => field.Key, StringComparer.Ordinal))
        {
            Add(name);
            foreach (var value in values)
                Add(value);
        }

        foreach (var file in form.Files)
        {
            Add(file.Name);
            await using var content = file.OpenReadStream();
            hash.AppendData(await SHA256.HashDataAsync(content, request.HttpContext.RequestAborted));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // The token is another one on every page, and after a refusal on the page that shows the form again.
    private static bool IsToken(string name) => name.StartsWith("__", StringComparison.Ordinal);

    private static string PageOf(HttpRequest request) =>
        Uri.TryCreate(request.Headers.Referer, UriKind.Absolute, out var page)
        && string.Equals(page.Authority, request.Host.Value, StringComparison.OrdinalIgnoreCase)
            ? page.PathAndQuery
            : "/";
}
