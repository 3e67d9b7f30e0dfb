using Dyewort.Readings;
using SkiaSharp;
using Xunit;

namespace Dyewort.Imaging.Tests;

public sealed class CardPlaceTests
{
    private const int Columns = 4;
    private const int Rows = 3;
    private const int Pitch = 70;
    private const int Left = 180;
    private const int Top = 120;

    /// <summary>A card that looks nearly the same upside down: each patch and the one opposite differ by so much in L*. Where the photo
    /// shows other colours than the card has (each patch off by so much in a*), the right way must win by the more.</summary>
    [Theory, InlineData(1.2, 0, false), InlineData(8, 0, true), InlineData(12, 18, false), InlineData(14, 18, true)]
    public void Which_way_round_a_card_lies_is_said_only_where_its_colours_tell(double apart, double off, bool told)
    {
        var card = Card(apart);
        using var photo = Draw([
            .. card.Select((patch, i) => patch with { Lab = patch.Lab with { A = patch.Lab.A + (i % 2 == 0 ? off : -off) } }),
        ]);
        var outcome = FindCardPlace.ByColours(photo, card, Columns, Rows, []);
        Assert.Equal(told, outcome.TryGet(out var place));
        if (!told)
        {
            Assert.Contains("two ways", outcome.Problems[0].What, StringComparison.Ordinal);
            return;
        }

        Assert.True(place!.Corners[0].DistanceTo(new(Left, Top)) < 0.2 * Pitch, $"{place.Corners[0]}");
        Assert.True(place.Corners[2].DistanceTo(new(Left + (Columns * Pitch), Top + (Rows * Pitch))) < 0.2 * Pitch, $"{place.Corners[2]}");
    }

    private static CardPatch[] Card(double apart) =>
        [
            .. Enumerable
                .Range(0, Columns * Rows)
                .Select(i =>
                {
                    var pair = Math.Min(i, (Columns * Rows) - 1 - i);
                    var lightness = 40 + (pair * 17 % 45) + ((i == pair ? 0.5 : -0.5) * apart);
                    return new CardPatch($"{i + 1}", new(lightness, 25 * Math.Cos(2 * pair), 25 * Math.Sin(2 * pair)));
                }),
        ];

    private static OpenPhoto Draw(CardPatch[] card)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(700, 480, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new SKColor(40, 40, 40));
            for (var i = 0; i < card.Length; i++)
            {
                var light = FileColour.Srgb.FromXyz(card[i].Lab.ToXyz());
                byte Code(double one) => (byte)Math.Round(255 * FileColour.LinearToSrgb(Math.Clamp(one, 0, 1)));
                using var paint = new SKPaint { Color = new(Code(light.R), Code(light.G), Code(light.B)) };
                canvas.DrawRect(Left + (i % Columns * Pitch) + 6, Top + (i / Columns * Pitch) + 6, Pitch - 12, Pitch - 12, paint);
            }
        }

        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        var opened = PhotoFile.Open("photo", png.ToArray());
        return opened.TryGet(out var photo) ? photo : throw new InvalidOperationException(opened.Problems[0].What);
    }
}
