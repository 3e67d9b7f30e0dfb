using System.Globalization;
using Dyewort.Workshop.Colours;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web.Pages.Colours;

/// <summary>A posted photo of a colour that lies on no chart: a thread, a petal, a batch.</summary>
internal static class LoosePhoto
{
    /// <summary>Takes the colour in its middle and goes on with it.</summary>
    /// <param name="next">The address to go on to, from the colour as a query value and from what it was reckoned against: "paper" or
    /// "photo".</param>
    /// <param name="again">The page again, where the photo was refused.</param>
    public static Task<IResult> PostedAsync(
        HttpContext http,
        IFormCollection form,
        PhotographColour take,
        Func<string, string, string> next,
        Func<Task<IResult>> again,
        CancellationToken cancel
    ) =>
        Show.PostedAsync(
            http,
            async () => take.Handle("Picture", await Show.BytesAsync(form.Files["Picture"], cancel), form["PaperAround"].Count > 0),
            answer =>
                next(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"color(xyz-d65%20{answer.Colour.X / 100:0.#####}"
                            + $"%20{answer.Colour.Y / 100:0.#####}%20{answer.Colour.Z / 100:0.#####})"
                    ),
                    answer.AgainstPaper ? "paper" : "photo"
                ),
            again
        );
}
