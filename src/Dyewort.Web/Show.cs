using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Web.Pages;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web;

/// <summary>Answers that the addresses of every room give.</summary>
public static class Show
{
    /// <summary>A page, with its parameters as an anonymous object or by their names.</summary>
    public static IResult Page<TPage>(object? parameters = null, int status = StatusCodes.Status200OK)
        where TPage : IComponent =>
        parameters is IReadOnlyDictionary<string, object?> named
            ? new RazorComponentResult<TPage>(named) { StatusCode = status, PreventStreamingRendering = true }
            : new RazorComponentResult<TPage>(parameters ?? new { }) { StatusCode = status, PreventStreamingRendering = true };

    /// <summary>What was asked for is not in the notebook.</summary>
    /// <param name="what">In a sentence.</param>
    /// <param name="on">Where to go on from here, each as a path and its words; the bench where there is none.</param>
    public static IResult Missing(string what, params (string Path, string Words)[] on) =>
        Page<ProblemPage>(
            new
            {
                Heading = "Not here",
                What = what,
                On = on,
            },
            StatusCodes.Status404NotFound
        );

    /// <summary>Something went wrong.</summary>
    public static IResult Problem(int status, string what) => Page<ProblemPage>(new { Heading = "That did not work", What = what }, status);

    /// <summary>Does what a form asks. When it is done, goes on to another page; when it is refused, shows the form again with what was
    /// typed and why.</summary>
    /// <param name="http">The request; its form has been read.</param>
    /// <param name="work">The use case, not yet started.</param>
    /// <param name="next">Where to go with what it made.</param>
    /// <param name="again">The page that holds the form.</param>
    public static async Task<IResult> PostedAsync<T>(
        HttpContext http,
        Func<Task<Outcome<T>>> work,
        Func<T, string> next,
        Func<Task<IResult>> again
    )
        where T : notnull
    {
        IReadOnlyList<Problem> problems;
        try
        {
            var outcome = await work();
            if (outcome.TryGet(out var made))
            {
                Understanding.Carry(http, outcome.Understood);
                return Results.LocalRedirect(next(made), permanent: false, preserveMethod: false);
            }

            problems = outcome.Problems;
        }
        catch (RefusalException refusal)
        {
            problems = refusal.Problems;
        }
        catch (ClashException) when (Once.IsLastTry(http))
        {
            problems =
            [
                new("", "Something else was written into the notebook at the same moment, and this was not.", "Send it once more."),
            ];
        }

        var posted = await http.Request.ReadFormAsync(http.RequestAborted);
        http.RequestServices.GetRequiredService<Typed>().Keep(posted, problems, http.Request.Path);
        http.Items[nameof(PostedAsync)] = true;
        return new Unprocessable(await again());
    }

    /// <summary>A file that a form sent; empty when none was chosen.</summary>
    public static async Task<byte[]> BytesAsync(IFormFile? file, CancellationToken cancel)
    {
        if (file is null)
            return [];
        using var copy = new MemoryStream((int)Math.Min(file.Length, WebHost.LargestUpload));
        await file.CopyToAsync(copy, cancel);
        return copy.ToArray();
    }

    /// <summary>A text that a form brings as a file or as typed words; the file first.</summary>
    public static async Task<string?> TextAsync(IFormCollection form, string file, string field, CancellationToken cancel)
    {
        const int Most = 4 << 20;
        if (form.Files[file] is not { Length: > 0 } sent)
            return form[field];
        if (sent.Length > Most)
            throw new RefusalException(field, "The file is larger than 4 MB.", "Check that it is the right one.");
        using var reader = new StreamReader(sent.OpenReadStream());
        return await reader.ReadToEndAsync(cancel);
    }

    private sealed class Unprocessable(IResult page) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            if (page is RazorComponentResult { StatusCode: StatusCodes.Status200OK } component)
                component.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return page.ExecuteAsync(httpContext);
        }
    }
}
