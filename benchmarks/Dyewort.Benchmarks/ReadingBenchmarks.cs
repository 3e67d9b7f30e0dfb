using System.Diagnostics;
using System.Globalization;
using Dyewort.Imaging.Tests;
using Dyewort.Workshop.Readings;
using SkiaSharp;

namespace Dyewort.Benchmarks;

/// <summary>Reading a 12-megapixel photo against decoding the same JPEG and nothing else.</summary>
public static class ReadingBenchmarks
{
    public static void Run()
    {
        var sheet = TestSheets.Small(edges: true);
        var photo = new PaintedPhoto { Layout = sheet, Paint = TestSheets.Paint(sheet), Width = 4032, Height = 3024, Turn = 90 }.Jpeg();
        var request = new ReadPhoto.Request { Picture = photo, Layout = sheet };
        for (var warm = 0; warm < 6; warm++)
        {
            Decode(photo);
            Read(request);
        }

        var decode = Median(() => Decode(photo));
        var read = Median(() => Read(request));
        var one = PerMinute(1, request);
        var two = PerMinute(2, request);
        Line("decode alone (SkiaSharp to RGBA, 12 MP)", $"{decode:0} ms", "floor");
        Line("read, warm process", $"{read:0} ms", string.Create(CultureInfo.InvariantCulture, $"{read / decode:0.00} × decoding"));
        Line("photos a minute, one at a time", $"{one:0}", "floor");
        Line("photos a minute, two at a time", $"{two:0}", string.Create(CultureInfo.InvariantCulture, $"{two / one:0.00} × one"));
        Line("peak working set of this process", $"{Process.GetCurrentProcess().PeakWorkingSet64 / 1048576.0:0} MB", "");
    }

    private static void Line(string what, string value, string ratio) => Console.WriteLine($"| {what} | {value} | {ratio} |");

    private static void Decode(byte[] photo)
    {
        using var data = SKData.CreateCopy(photo);
        using var codec = SKCodec.Create(data);
        using var bitmap = new SKBitmap(new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, codec.Info.ColorSpace));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) != SKCodecResult.Success) throw new InvalidOperationException("The benchmark's own photo does not decode.");
    }

    private static void Read(ReadPhoto.Request request)
    {
        if (!new ReadPhoto().Handle(request).TryGet(out var answer)) throw new InvalidOperationException("The benchmark's own photo cannot be read.");
        answer.Dispose();
    }

    private static double Median(Action action)
    {
        var times = new List<double>();
        for (var round = 0; round < 15; round++)
        {
            var watch = Stopwatch.StartNew();
            action();
            times.Add(watch.Elapsed.TotalMilliseconds);
        }

        times.Sort();
        return times[times.Count / 2];
    }

    private static double PerMinute(int workers, ReadPhoto.Request request)
    {
        const int Photos = 24;
        var watch = Stopwatch.StartNew();
        Parallel.For(0, Photos, new ParallelOptions { MaxDegreeOfParallelism = workers }, _ => Read(request));
        return Photos / watch.Elapsed.TotalMinutes;
    }
}
