using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pantry;

/// <summary>Writes a material into the pantry, or corrects one that is there.</summary>
public sealed class SaveMaterial(NotebookDb db, NotebookSettings settings, TimeProvider clock) : IUseCase
{
    /// <param name="id">The material to correct; null to write a new one.</param>
    public async Task<Outcome<Guid>> HandleAsync(Guid? id, SaveMaterialForm form, CancellationToken cancel)
    {
        var entered = new Entered(await db.KitchenAsync(cancel));
        var name = entered.Words(nameof(form.Name), form.Name, "The name", longest: 80);
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, MaterialKind.Addition);
        var strength = entered.OptionalNumber(nameof(form.StrengthPercent), form.StrengthPercent, "per cent", 0.01, 100, "5");
        var spoon = entered.Mass(nameof(form.GramsPerTeaspoon), form.GramsPerTeaspoon, 0.05, 60);
        var ten = entered.Mass(nameof(form.TenSpoons), form.TenSpoons, 0.5, 600);
        var substance = entered.OptionalWords(nameof(form.Substance), form.Substance, longest: 80);
        if (substance is not null)
            entered.Take(SubstanceCatalogue.Standard.Find(nameof(form.Substance), substance));
        var piece = entered.Mass(nameof(form.GramsPerPiece), form.GramsPerPiece, 0.001, 1000);
        var price = entered.OptionalNumber(
            nameof(form.UnitPrice),
            form.UnitPrice,
            "the price of one gram, millilitre or piece",
            0,
            10000,
            "0.02"
        );
        var (stock, unit) = Stock(entered, form, await db.KitchenAsync(cancel));
        var holds = entered.Volume(nameof(form.HoldsMl), form.HoldsMl, 0.1, 100_000);
        var letters = entered.OptionalWords(nameof(form.Letters), form.Letters, longest: 4)?.ToUpperInvariant();
        if (letters is not null && (letters.Length < 2 || !letters.All(char.IsAsciiLetterUpper)))
            entered.Refuse(nameof(form.Letters), $"“{letters}” cannot start a pot's code.", "Take two to four plain letters, such as EB.");
        if (letters is not null && await db.Materials.AnyAsync(material => material.Letters == letters && material.Id != id, cancel))
            entered.Refuse(nameof(form.Letters), $"Another plant has the letters {letters}.", "Take others.");
        Xyz? bare = string.IsNullOrWhiteSpace(form.BareColour)
            ? null
            : entered.Take(ColourText.Parse(nameof(form.BareColour), form.BareColour))?.Colour;
        PaperKind? paperKind = string.IsNullOrWhiteSpace(form.PaperKind)
            ? null
            : entered.OneOf(nameof(form.PaperKind), form.PaperKind, Dyewort.Readings.PaperKind.Natural);
        var caution = entered.OptionalWords(nameof(form.Caution), form.Caution);
        var note = entered.OptionalWords(nameof(form.Note), form.Note);
        if (await db.Materials.Counting().AnyAsync(material => material.Name == name && material.Id != id, cancel))
            entered.Refuse(nameof(form.Name), $"“{name}” is in the pantry already.", "Correct that one, or give this one another name.");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);

        var source = "entered here";
        if (ten is { } weighed)
            (spoon, source) = (weighed / 10 * 5 / await settings.TeaspoonMlAsync(cancel), "ten level spoons weighed here");
        var now = clock.GetUtcNow();
        var material = id is { } known ? await db.Materials.SingleOrDefaultAsync(one => one.Id == known, cancel) : null;
        if (material is null)
        {
            if (id is not null)
                return Outcome.Refused<Guid>(nameof(form.Name), "This material is not in the notebook.", "Go back to the pantry.");
            material = new Material
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Name = name,
                Kind = kind,
            };
            if (kind == MaterialKind.Plant)
                letters ??= Codes.LettersFor(name, await LettersTakenAsync(cancel));
            db.Add(material);
        }

        material.Name = name;
        material.Kind = kind;
        material.StrengthPercent = strength;
        material.Substance = substance;
        if (material.GramsPerTeaspoon != spoon)
            material.GramsPerTeaspoonSource = spoon is null ? null : source;
        material.GramsPerTeaspoon = spoon;
        material.GramsPerPiece = piece;
        material.UnitPrice = price;
        material.Stock = stock;
        material.StockUnit = unit;
        material.HoldsMl = holds;
        if (kind == MaterialKind.Plant)
            material.Letters = letters ?? material.Letters;
        if (kind == MaterialKind.Paper)
        {
            material.PaperKind = paperKind;

            // The field shows a rounded figure: posted back unchanged, it must not replace what was measured.
            if (form.BareColour?.Trim() != (material.BareColour is { } measured ? CssColour.LabText(measured) : ""))
                (material.BareColour, material.BareUncertaintyDe00, material.BareMethod, material.BareMeasuredOn) = (
                    bare,
                    null,
                    bare is null ? null : "typed",
                    null
                );
        }

        material.Caution = caution;
        material.Note = note;
        await db.SaveChangesAsync(cancel);
        return entered.Made(material.Id);
    }

    // "250" is in the unit beside it; "1 kg" and "2 pints" say their own, and are kept in grams and millilitres.
    private static (double? Left, string? Unit) Stock(Entered entered, SaveMaterialForm form, Teaspoon kitchen)
    {
        var unit = entered.OptionalWords(nameof(form.StockUnit), form.StockUnit, longest: 10);
        if (
            string.IsNullOrWhiteSpace(form.Stock)
            || Figures.Read(form.Stock) is not null
            || !Amount.Parse(nameof(form.Stock), form.Stock).TryGet(out var amount)
        )
            return (entered.OptionalNumber(nameof(form.Stock), form.Stock, "an amount", 0, 1_000_000, "250"), unit);
        if (amount.Unit is AmountUnit.Piece)
            return (amount.Number, "pieces");
        return KitchenMeasures.Millilitres(amount.Unit, amount.KindIn(kitchen)) is not null
            ? (entered.Volume(nameof(form.Stock), form.Stock), "ml")
            : (entered.Mass(nameof(form.Stock), form.Stock), "g");
    }

    private async Task<IReadOnlySet<string>> LettersTakenAsync(CancellationToken cancel) =>
        (
            await db.Materials.Where(material => material.Letters != null).Select(material => material.Letters!).ToListAsync(cancel)
        ).ToHashSet();
}

public sealed record SaveMaterialForm
{
    public string? Name { get; init; }

    public string? Kind { get; init; }

    public string? StrengthPercent { get; init; }

    public string? GramsPerTeaspoon { get; init; }

    /// <summary>Grams of ten level teaspoons weighed together; takes the place of <see cref="GramsPerTeaspoon"/>.</summary>
    public string? TenSpoons { get; init; }

    /// <summary>What the chemistry tables know it as, when its name is the maker's own.</summary>
    public string? Substance { get; init; }

    public string? GramsPerPiece { get; init; }

    public string? UnitPrice { get; init; }

    public string? Stock { get; init; }

    public string? StockUnit { get; init; }

    public string? HoldsMl { get; init; }

    /// <summary>For plants: the letters its pots are coded with.</summary>
    public string? Letters { get; init; }

    /// <summary>For papers: the bare paper's own colour.</summary>
    public string? BareColour { get; init; }

    /// <summary>For papers: what kind it is.</summary>
    public string? PaperKind { get; init; }

    public string? Caution { get; init; }

    public string? Note { get; init; }
}
