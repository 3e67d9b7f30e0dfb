using System.Diagnostics;
using System.Globalization;
using Dyewort.Imaging;
using Dyewort.Imaging.Tests;
using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using SkiaSharp;

namespace Dyewort.Benchmarks;

/// <summary>Reading a 12-megapixel photo against decoding the same JPEG and nothing else.</summary>
public static class ReadingBenchmarks
{
    private const string OtherFinder = """
        import sys, time
        import cv2
        d = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
        grey = cv2.cvtColor(cv2.imread(sys.argv[1]), cv2.COLOR_BGR2GRAY)
        new = hasattr(cv2.aruco, "ArucoDetector")
        p = cv2.aruco.DetectorParameters() if new else cv2.aruco.DetectorParameters_create()
        p.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
        find = cv2.aruco.ArucoDetector(d, p).detectMarkers if new else lambda g: cv2.aruco.detectMarkers(g, d, parameters=p)
        times = []
        for k in range(11):
            start = time.perf_counter(); corners, ids, _ = find(grey); times.append(time.perf_counter() - start)
        print(sorted(times[2:])[4] * 1000, 0 if ids is None else len(ids))
        """;

    public static void Run()
    {
        var sheet = TestSheets.Small(edges: true);
        var photo = new PaintedPhoto
        {
            Layout = sheet,
            Paint = TestSheets.Paint(sheet),
            Width = 4032,
            Height = 3024,
            Turn = 90,
        }.Jpeg();
        var request = new ReadPhotoRequest { Picture = photo, Layout = sheet };
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
        Finders(photo);
        Line("photos a minute, one at a time", $"{one:0}", "floor");
        Line("photos a minute, two at a time", $"{two:0}", string.Create(CultureInfo.InvariantCulture, $"{two / one:0.00} × one"));
        Folder(photo, sheet);
    }

    /// <summary>The program itself on a folder: its peak is what a maker's machine has to have, and no benchmark's own memory is in
    /// it.</summary>
    private static void Folder(byte[] photo, SheetLayout sheet)
    {
        const int Photos = 24;
        var folder = Directory.CreateTempSubdirectory("dyewort-benchmark-");
        try
        {
            for (var i = 0; i < Photos; i++)
                File.WriteAllBytes(Path.Combine(folder.FullName, $"{i:00}.jpg"), photo);
            var layout = Path.Combine(folder.FullName, "sheet.json");
            File.WriteAllText(layout, sheet.ToJson());
            var program = Path.Combine(AppContext.BaseDirectory, "..", "..", "Dyewort.Cli", "release", "dyewort.dll");
            if (!File.Exists(program))
            {
                Line($"peak of `read` on a folder of {Photos}", "the program is not built (dotnet build -c Release)", "");
                return;
            }

            var start = new ProcessStartInfo("dotnet")
            {
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            foreach (var argument in new[] { program, "read", folder.FullName, "--layout", layout, "--json" })
                start.ArgumentList.Add(argument);
            using var process = Process.Start(start) ?? throw new InvalidOperationException("The program does not start.");
            process.OutputDataReceived += (_, _) => { };
            process.ErrorDataReceived += (_, _) => { };
            process.BeginOutputReadLine();
            process.BeginErrorReadLine();
            long peak = 0;
            while (!process.WaitForExit(10))
            {
                try
                {
                    process.Refresh();
                    peak = Math.Max(peak, process.PeakWorkingSet64);
                }
                catch (InvalidOperationException)
                {
                    // It has ended between the two lines; the peak is known by then.
                }
            }

            if (process.ExitCode != 0)
                throw new InvalidOperationException("The folder cannot be read.");
            Line(
                $"peak of `read` on a folder of {Photos}",
                $"{peak / 1e6:0} MB",
                string.Create(CultureInfo.InvariantCulture, $"{peak / 1e6 / 300:0.00} × the 300 MB wanted")
            );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>Our marker finder beside OpenCV's on the same pixels, each as its users call it, on as many cores as it takes.</summary>
    private static void Finders(byte[] photo)
    {
        if (!PhotoFile.Open("photo", photo).TryGet(out var open))
            throw new InvalidOperationException("The benchmark's own photo does not open.");
        using (open)
        {
            var found = 0;
            for (var warm = 0; warm < 6; warm++)
                FindMarkers.In(open, 4);
            var own = Median(() => found = FindMarkers.In(open, 4).Count);
            var path = Path.Combine(Path.GetTempPath(), $"dyewort-benchmark-{Environment.ProcessId}.jpg");
            try
            {
                File.WriteAllBytes(path, photo);
                var start = new ProcessStartInfo("/usr/bin/python3")
                {
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                    RedirectStandardError = true,
                };
                foreach (var argument in new[] { "-c", OtherFinder, path })
                    start.ArgumentList.Add(argument);
                using var python = File.Exists(start.FileName) ? Process.Start(start) : null;
                var words = python?.StandardOutput.ReadToEnd().Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
                python?.WaitForExit();
                if (words.Length != 2)
                {
                    Line("OpenCV's marker detector", "not on this machine (Debian: python3-opencv)", "");
                    return;
                }

                var other = double.Parse(words[0], CultureInfo.InvariantCulture);
                Line($"OpenCV's marker detector, whole picture ({words[1].Trim()} markers)", $"{other:0} ms", "floor");
                Line(
                    $"marker finder, whole picture ({found} markers)",
                    $"{own:0} ms",
                    string.Create(CultureInfo.InvariantCulture, $"{own / other:0.00} × OpenCV")
                );
            }
            finally
            {
                File.Delete(path);
            }
        }
    }

    private static void Line(string what, string value, string ratio) => Console.WriteLine($"| {what} | {value} | {ratio} |");

    private static void Decode(byte[] photo)
    {
        using var data = SKData.CreateCopy(photo);
        using var codec = SKCodec.Create(data);
        using var bitmap = new SKBitmap(
            new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, codec.Info.ColorSpace)
        );
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) != SKCodecResult.Success)
            throw new InvalidOperationException("The benchmark's own photo does not decode.");
    }

    private static void Read(ReadPhotoRequest request)
    {
        if (!new ReadPhoto().Handle(request).TryGet(out var answer))
            throw new InvalidOperationException("The benchmark's own photo cannot be read.");
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

    private static double PerMinute(int workers, ReadPhotoRequest request)
    {
        const int Photos = 24;
        var watch = Stopwatch.StartNew();
        Parallel.For(0, Photos, new ParallelOptions { MaxDegreeOfParallelism = workers }, _ => Read(request));
        return Photos / watch.Elapsed.TotalMinutes;
    }
}
