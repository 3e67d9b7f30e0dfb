namespace Dyewort.Web.Components;

/// <summary>Finds places for the codes beside the points of a drawing, so that none lies on another or on a point.</summary>
internal sealed class LabelPlaces(double left, double top, double right, double bottom)
{
    private const double CharWidth = 6.9;
    private const double Height = 12;
    private readonly List<(double Left, double Top, double Right, double Bottom)> taken = [];

    /// <summary>Keeps a place free: a point, a word that is drawn already.</summary>
    public void Keep(double x, double y, double radius) => taken.Add((x - radius, y - radius, x + radius, y + radius));

    /// <summary>Keeps the place of a word free that is drawn without asking.</summary>
    public void KeepWord(double x, double baseline, string text, string anchor)
    {
        var width = CharWidth * text.Length;
        var from = anchor switch
        {
            "middle" => x - (width / 2),
            "end" => x - width,
            _ => x,
        };
        taken.Add((from, baseline - Height, from + width, baseline + 3));
    }

    /// <summary>Where a word may stand beside a point: its left end and baseline, and whether it is so far off that a line has to lead to
    /// it.</summary>
    public (double X, double Baseline, bool Led) Beside(double x, double y, double radius, string text)
    {
        var width = CharWidth * text.Length;
        for (var away = radius + 3; away < 90; away += 7)
        {
            foreach (var degrees in new[] { 0, 180, 30, -30, 150, -150, 90, -90, 60, -60, 120, -120 })
            {
                var (cos, sin) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
                var (cx, cy) = (x + (away * cos), y + (away * sin));
                var from =
                    cos > 0.2 ? cx
                    : cos < -0.2 ? cx - width
                    : cx - (width / 2);
                var box = (Left: from, Top: cy - (Height / 2), Right: from + width, Bottom: cy + (Height / 2));
                if (box.Left < left || box.Right > right || box.Top < top || box.Bottom > bottom)
                    continue;
                if (taken.Exists(one => one.Left < box.Right && box.Left < one.Right && one.Top < box.Bottom && box.Top < one.Bottom))
                    continue;
                taken.Add(box);
                return (from, cy + 4, away > radius + 9);
            }
        }

        return (Math.Clamp(x + radius + 3, left, right - width), y + 4, false);
    }
}
