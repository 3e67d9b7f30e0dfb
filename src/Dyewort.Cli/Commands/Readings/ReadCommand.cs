using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Workshop;
using Dyewort.Workshop.Readings;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Commands.Readings;

/// <summary>Photo in, colours out.</summary>
public sealed class ReadCommand : Command<ReadSettings>
{
    private static readonly string[] PictureEndings = [".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".avif", ".tif", ".tiff"];
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    public override int Execute(CommandContext context, ReadSettings settings, CancellationToken cancellationToken)
    {
        if (settings.Propose is not null)
            return ReadPropose.Run(settings);
        var request = Prepare(settings);
        if (Directory.Exists(settings.Photo) && settings.StripDefine is not null)
            throw new RefusalException("strip-define", "A folder was given.", "A strip is defined by one photo.");
        if (Directory.Exists(settings.Photo) && settings.Check is not null)
            throw new RefusalException("check", "A folder was given.", "Check one photo at a time.");
        if (Directory.Exists(settings.Photo))
            return ReadFolder(settings, request, cancellationToken);
        var outcome = ReadOne(request, settings.Photo, settings.Picture, settings.StripDefine);
        if (!outcome.TryGet(out var result))
            throw new RefusalException(outcome.Problems);
        var check = settings.Check is { } instrument
            ? Got(new CheckReading().Handle(new(Text("check", instrument), result.Swatches)))
            : null;
        var dry =
            settings.Dries || settings.Dried.Length > 0
                ? new ForetellDry().Handle(new(result.Swatches, result.Calibration.Paper, Pairs(settings.Dried)))
                : null;
        if (settings.Json)
            Console.WriteLine(ReadingJson.Write(result, check, dry));
        else
            Print(result, check, dry);
        return Program.Done;
    }

    private static ReadPhotoRequest Prepare(ReadSettings settings)
    {
        if (settings.Layout is null && settings.Spots is null && settings.Grid is null)
            throw new RefusalException(
                "layout",
                "It is not known where the swatches are.",
                "Give the sheet's layout with --layout, or swatches with --spots, or --corners and --grid."
            );
        var request = new ReadPhotoRequest { Picture = [] };
        if (settings.Layout is { } layout)
            request = request with { Layout = Got(SheetLayout.Parse("layout", Text("layout", layout))) };
        if (settings.Spots is { } spots)
            request = request with { Spots = ParseSpots(Text("spots", spots)) };
        if (settings.Corners is { } corners)
            request = request with { Corners = ParsePoints("corners", corners) };
        if (settings.Grid is { } grid)
            request = request with { Grid = ParseGrid("grid", grid) };
        if (settings.Paper is { } paper)
            request = request with { Paper = Lab.FromXyz(Got(ColourText.Parse("paper", paper)).Colour) };
        if (settings.Black is { } black)
        {
            if (!(black is >= PrintedBlack.LeastPercent and <= PrintedBlack.MostPercent))
                throw new RefusalException(
                    "black",
                    string.Create(CultureInfo.InvariantCulture, $"{black} % is outside 1 to 15 %."),
                    "Give per cent of the paper's light, such as 6, or leave it out."
                );
            request = request with { Black = PrintedBlack.OfPercent(black) };
        }

        if (settings.Card is not null && settings.Strip is not null)
            throw new RefusalException("card", "A card and a strip were both given.", "Give the one that is in the photo.");
        if (settings.StripDefine is not null && (settings.Card ?? settings.Strip) is not null)
            throw new RefusalException(
                "strip-define",
                "A strip cannot be defined and used in one reading.",
                "Leave out --card and --strip, or leave out --strip-define."
            );
        if ((settings.Card ?? settings.Strip ?? settings.StripDefine) is { } card)
        {
            if (settings.CardGrid is null)
                throw new RefusalException(
                    "card-grid",
                    "It is not known how many patches the card or strip has.",
                    "Give --card-grid, such as 6x4."
                );
            var (columns, rows) = ParseGrid("card-grid", settings.CardGrid);
            var cardCorners = settings.CardCorners is { } given ? ParsePoints("card-corners", given) : [];
            request = settings.StripDefine is not null
                ? request with
                {
                    DefineStrip = new(cardCorners, columns, rows),
                }
                : request with
                {
                    Card = new(Got(CardFile.Parse("card", Text("card", card))), cardCorners, columns, rows, settings.Strip is not null),
                };
        }

        return request;
    }

    internal static Outcome<byte[]> PictureBytes(string path)
    {
        try
        {
            var info = new FileInfo(path);
            if (!info.Exists)
                return Outcome.Refused<byte[]>("photo", $"There is no file “{path}”.", "Check the name and the folder.");
            if (info.Length > 80L << 20)
                return Outcome.Refused<byte[]>(
                    "photo",
                    "The file is larger than 80 MB.",
                    "Make it smaller first: 4000 pixels on the long side are plenty."
                );
            return Outcome.Of(File.ReadAllBytes(path));
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return Outcome.Refused<byte[]>("photo", $"The file “{path}” could not be read.", "Check that it is a file you may open.");
        }
    }

    private static Outcome<ReadingResult> ReadOne(ReadPhotoRequest request, string path, string? picture, string? strip) =>
        new ReadPhoto().Handle(
            request,
            () => PictureBytes(path),
            answer =>
            {
                if (picture is not null)
                    File.WriteAllBytes(picture, answer.MarkedPicture());
                if (strip is not null && answer.Strip is { } patches)
                    File.WriteAllText(strip, CardFile.Write(patches, "House strip, as first read from a photo; STDEV_DE in CIEDE2000"));
            }
        );

    private static int ReadFolder(ReadSettings settings, ReadPhotoRequest request, CancellationToken cancel)
    {
        var files = Directory
            .EnumerateFiles(settings.Photo)
            .Where(file => PictureEndings.Contains(Path.GetExtension(file), StringComparer.OrdinalIgnoreCase))
            .Order(StringComparer.Ordinal)
            .ToArray();
        if (files.Length == 0)
            throw new RefusalException(
                "photo",
                $"There are no pictures in “{settings.Photo}”.",
                "Give a folder with JPEG, PNG, WebP, HEIC or TIFF files."
            );
        if (settings.Picture is not null)
            Directory.CreateDirectory(settings.Picture);
        var done = 0;
        var outcomes = new ReadMany().Handle(
            new(request, [.. files.Select(file => (Func<Outcome<byte[]>>)(() => PictureBytes(file)))])
            {
                Read = settings.Picture is not { } pictures
                    ? null
                    : (i, answer) =>
                        File.WriteAllBytes(
                            Path.Combine(pictures, Path.GetFileNameWithoutExtension(files[i]) + ".png"),
                            answer.MarkedPicture()
                        ),
                Done = (i, outcome) =>
                {
                    var word = outcome.TryGet(out _) ? "read" : outcome.Problems[0].ToString();
                    Console.Error.WriteLine(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{Interlocked.Increment(ref done)}/{files.Length} {Path.GetFileName(files[i])}: {word}"
                        )
                    );
                },
            },
            cancel
        );

        if (settings.Json)
        {
            Console.WriteLine(ReadingJson.WriteMany([.. files.Select((file, i) => (Path.GetFileName(file), outcomes[i]))]));
        }
        else
        {
            for (var i = 0; i < files.Length; i++)
            {
                Console.WriteLine(Path.GetFileName(files[i]));
                if (outcomes[i].TryGet(out var result))
                    Print(result);
                else
                    Console.WriteLine("  " + outcomes[i].Problems[0]);
            }
        }

        return outcomes.Any(outcome => outcome.TryGet(out _)) ? Program.Done : Program.Refused;
    }

    private static IReadOnlyList<WetDryPair> Pairs(IEnumerable<string> files) =>
        [
            .. files.SelectMany(both =>
            {
                var names = both.Split(',');
                if (names.Length != 2)
                    throw new RefusalException(
                        "dried",
                        $"“{both}” does not name two files.",
                        "Give the wet reading and the dry one: --dried wet.json,dry.json."
                    );
                return Got(ForetellDry.PairsFrom(Text("dried", names[0].Trim()), Text("dried", names[1].Trim())));
            }),
        ];

    private static void Print(ReadingResult result, InstrumentCheck? check = null, IReadOnlyDictionary<string, DryForecast>? dry = null)
    {
        var known = check?.Swatches.ToDictionary(swatch => swatch.Id);
        foreach (var swatch in result.Swatches)
        {
            var words = string.Join(", ", swatch.Warnings.Select(warning => warning.Code));
            var against = known?.GetValueOrDefault(swatch.Id) is { } held
                ? FormattableString.Invariant($"off by {held.De00:0.0}{(held.IsInside ? "" : ", more than stated")}  ")
                : "";
            var dries = dry?.GetValueOrDefault(swatch.Id) is { } later
                ? FormattableString.Invariant(
                    $"dries to {later.Dry.L:0.0} {later.Dry.A:0.0} {later.Dry.B:0.0} ± {later.UncertaintyDe00:0.0}  "
                )
                : "";
            Console.WriteLine(
                string.Create(
                        CultureInfo.InvariantCulture,
                        $"{swatch.Id, -6} L* {swatch.Lab.L, 5:0.0}  a* {swatch.Lab.A, 6:0.0}  b* {swatch.Lab.B, 6:0.0}  "
                            + $"± {swatch.UncertaintyDe00:0.0}  {against}{dries}{words}"
                    )
                    .TrimEnd()
            );
        }

        if (check is not null)
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Against the instrument, {check.Swatches.Count} swatches: ΔE00 mean {check.MeanDe00:0.0}, median "
                        + $"{check.MedianDe00:0.0}, 95 in 100 below {check.P95De00:0.0}; {100 * check.InsideShare:0} % within what is "
                        + $"stated; all together L* {check.MeanShift.L:+0.0;-0.0}, a* {check.MeanShift.A:+0.0;-0.0}, b* "
                        + $"{check.MeanShift.B:+0.0;-0.0}."
                )
            );

        if (result.Calibration is { Method: "card", Black: { } black })
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"By the card, this sheet's black reflects {100 * black:0.0} % of its paper: say --black {100 * black:0.0} for "
                        + $"photos of such sheets without a card."
                )
            );

        if (dry is { Count: > 0 })
            Console.WriteLine(
                dry.First().Value.Pairs is var pairs && pairs > 0
                    ? $"What it dries to is learnt from {pairs} swatches read wet and dry."
                    : "What it dries to is a cautious guess: nothing was read wet and dry yet (--dried)."
            );

        foreach (
            var text in result
                .Swatches.SelectMany(swatch => swatch.Warnings)
                .Select(warning => warning.Text)
                .Concat(result.Warnings.Select(warning => warning.Text))
        )
            Console.Error.WriteLine(text);
    }

    private static T Got<T>(Outcome<T> outcome)
        where T : notnull => outcome.TryGet(out var value) ? value : throw new RefusalException(outcome.Problems);

    private static string Text(string field, string path)
    {
        try
        {
            var info = new FileInfo(path);
            if (!info.Exists)
                throw new RefusalException(field, $"There is no file “{path}”.", "Check the name and the folder.");
            if (info.Length > 10 << 20)
                throw new RefusalException(field, $"The file “{path}” is far too large.", "Check that it is the right one.");
            return File.ReadAllText(path);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new RefusalException(field, $"The file “{path}” could not be read.", "Check that it is a file you may open.");
        }
    }

    private static IReadOnlyList<PointPx> ParsePoints(string field, string text)
    {
        var parts = text.Split([',', ' ', ';'], StringSplitOptions.RemoveEmptyEntries);
        var numbers = new double[parts.Length];
        var sound = parts.Length == 8;
        for (var i = 0; i < parts.Length; i++)
            sound &=
                double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out numbers[i]) && double.IsFinite(numbers[i]);
        return sound
            ? [.. Enumerable.Range(0, 4).Select(i => new PointPx(numbers[2 * i], numbers[(2 * i) + 1]))]
            : throw new RefusalException(
                field,
                $"“{text}” are not four corners.",
                "Give eight numbers: x,y,x,y,x,y,x,y, in pixels of the upright photo."
            );
    }

    private static (int Columns, int Rows) ParseGrid(string field, string text)
    {
        var parts = text.Split(['x', 'X', '×']);
        return
            parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var columns)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var rows)
            && columns is >= 1 and <= 60
            && rows is >= 1 and <= 60
            ? (columns, rows)
            : throw new RefusalException(field, $"“{text}” is not a grid.", "Give columns x rows, such as 6x4.");
    }

    private static IReadOnlyList<ReadPhoto.Spot> ParseSpots(string json)
    {
        const string Remedy = "Write [{\"id\":\"s1\",\"polygonPx\":[[x,y],[x,y],[x,y]]}].";
        List<SpotShape>? shapes;
        try
        {
            shapes = JsonSerializer.Deserialize<List<SpotShape>>(json, Web);
        }
        catch (JsonException problem)
        {
            throw new RefusalException("spots", $"The spots are not readable JSON (line {problem.LineNumber + 1}).", Remedy);
        }

        if (shapes is not { Count: > 0 and <= 2000 })
            throw new RefusalException("spots", "The file holds no spots.", Remedy);
        if (
            shapes.FirstOrDefault(shape =>
                string.IsNullOrWhiteSpace(shape.Id)
                || shape.PolygonPx is not { Count: >= 3 }
                || shape.PolygonPx.Any(p => p is not { Length: 2 } || !p.All(double.IsFinite))
            ) is
            { } bad
        )
            throw new RefusalException("spots", $"Spot “{bad.Id}” has no name, or fewer than three corners.", Remedy);
        return [.. shapes.Select(shape => new ReadPhoto.Spot(shape.Id!, [.. shape.PolygonPx!.Select(p => new PointPx(p[0], p[1]))]))];
    }

    private sealed record SpotShape(string? Id, IReadOnlyList<double[]>? PolygonPx);
}

public sealed class ReadSettings : CommandSettings
{
    [CommandArgument(0, "<PHOTO>"), Description("The photo or scan, or a folder of them")]
    public string Photo { get; init; } = "";

    [CommandOption("--layout <FILE>"), Description("The sheet's layout, as “dyewort sheet --layout” wrote it")]
    public string? Layout { get; init; }

    [
        CommandOption("--corners <X,Y,…>"),
        Description(
            "Four corners on the photo, clockwise from the top left, when markers cannot be seen: of the sheet, or of a painted grid"
        )
    ]
    public string? Corners { get; init; }

    [CommandOption("--grid <COLUMNSxROWS>"), Description("A grid painted without a sheet, such as 4x6; needs --corners")]
    public string? Grid { get; init; }

    [CommandOption("--spots <FILE>"), Description("Swatches outlined on the photo: [[{\"id\":\"s1\",\"polygonPx\":[[[[x,y]],…]]}]]")]
    public string? Spots { get; init; }

    [
        CommandOption("--propose <FILE>"),
        Description("Look for swatches on unmarked paper and write them as spots to correct and read with --spots")
    ]
    public string? Propose { get; init; }

    [CommandOption("--paper <COLOUR>"), Description("The bare paper's own colour, when it is known")]
    public string? Paper { get; init; }

    [
        CommandOption("--black <PERCENT>"),
        Description(
            "How black the sheet is printed: per cent of its paper's light, 1 to 15; taken as about 4 when not given. A reading with "
                + "--card measures it"
        )
    ]
    public double? Black { get; init; }

    [CommandOption("--card <FILE>"), Description("Reference card in the photo: a CGATS.17 text file")]
    public string? Card { get; init; }

    [CommandOption("--strip <FILE>"), Description("Your own strip of stable patches, as an earlier reading of it: a CGATS.17 text file")]
    public string? Strip { get; init; }

    [
        CommandOption("--strip-define <FILE>"),
        Description("Read the strip of --card-grid patches for the first time and write what it is: the file that --strip takes later")
    ]
    public string? StripDefine { get; init; }

    [
        CommandOption("--card-corners <X,Y,…>"),
        Description(
            "The card's or strip's four outer corners, clockwise from the patch that comes first; without them it is looked for "
                + "beside the page"
        )
    ]
    public string? CardCorners { get; init; }

    [CommandOption("--card-grid <COLUMNSxROWS>"), Description("Its patches, such as 6x4")]
    public string? CardGrid { get; init; }

    [
        CommandOption("--check <FILE>"),
        Description(
            "An instrument's readings of the same swatches: a CGATS.17 text file with CIELAB, XYZ or spectra, named by the cells' codes"
        )
    ]
    public string? Check { get; init; }

    [CommandOption("--dries"), Description("The paint is wet: also say what each swatch will dry to")]
    public bool Dries { get; init; }

    [
        CommandOption("--dried <WET.json,DRY.json>"),
        Description("Earlier readings of one chart, wet and dry, as --json wrote them: --dries learns from them; may be given again")
    ]
    public string[] Dried { get; init; } = [];

    [CommandOption("--picture <FILE>"), Description("Write the photo with what was read where drawn on it (PNG); for a folder, a folder")]
    public string? Picture { get; init; }

    [CommandOption("--json"), Description("Answer for machines")]
    public bool Json { get; init; }
}
