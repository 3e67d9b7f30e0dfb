namespace Dyewort.Colour;

/// <summary>A colour difference in the words a maker uses.</summary>
/// <remarks>Sizes are CIEDE2000's own weighted parts. The limits between the words are common practice, no source.</remarks>
public static class DifferenceWords
{
    /// <summary>How visible a difference is.</summary>
    /// <param name="de00">ΔE₀₀ ≥ 0.</param>
    public static string Visibility(double de00) =>
        de00 switch
        {
            < 0.5 => "no one sees it",
            < 1 => "hardly visible",
            < 2 => "just visible side by side",
            < 5 => "clearly visible",
            _ => "another colour",
        };

    /// <summary>What the second colour is against the first: “a little lighter, clearly greener”; “the same” where nothing shows.</summary>
    public static string Say(Lab first, Lab second)
    {
        var total = Difference.Ciede2000(first, second);
        if (total < 0.5)
            return "the same";
        var words = new List<(double Size, string Text)>();
        void Add(double step, double size, string more, string less)
        {
            if (size >= Math.Min(0.5, total / 2))
                words.Add((size, $"{Much(size)} {(step > 0 ? more : less)}"));
        }

        var middle = new Lab((first.L + second.L) / 2, (first.A + second.A) / 2, (first.B + second.B) / 2);
        var (dL, dC, dH) = Difference.Split(first, second);
        Add(dL, Part(middle, dL, 0, 0), "lighter", "darker");
        if (Math.Min(first.Chroma, second.Chroma) < 4)
        {
            // Next to grey, hue angles mean nothing: say where the colour moved.
            Add(second.A - first.A, Part(middle, 0, second.A - first.A, 0), "redder", "greener");
            Add(second.B - first.B, Part(middle, 0, 0, second.B - first.B), "yellower", "bluer");
        }
        else
        {
            var hue = Lch.FromLab(middle).HueDegrees * Math.PI / 180;
            Add(dC, Part(middle, 0, dC * Math.Cos(hue), dC * Math.Sin(hue)), "stronger", "greyer");
            // The borders are where CIELAB has pure red, yellow, green and blue, roughly (from memory).
            var (onward, back) = middle.HueDegrees switch
            {
                >= 24 and < 90 => ("yellower", "redder"),
                >= 90 and < 162 => ("greener", "yellower"),
                >= 162 and < 246 => ("bluer", "greener"),
                _ => ("redder", "bluer"),
            };
            Add(dH, Part(middle, 0, -dH * Math.Sin(hue), dH * Math.Cos(hue)), onward, back);
        }

        return words.Count == 0
            ? "hardly different"
            : string.Join(", ", words.OrderByDescending(word => word.Size).Select(word => word.Text));
    }

    private static string Much(double size) =>
        size < 1.5 ? "a little"
        : size < 4 ? "clearly"
        : "much";

    /// <summary>ΔE₀₀ of a step about a colour.</summary>
    private static double Part(Lab middle, double dl, double da, double db) =>
        Difference.Ciede2000(
            new(middle.L - (dl / 2), middle.A - (da / 2), middle.B - (db / 2)),
            new(middle.L + (dl / 2), middle.A + (da / 2), middle.B + (db / 2))
        );
}
