using System.Globalization;

namespace Dyewort.Chemistry;

/// <summary>Iron set against tannin.</summary>
/// <param name="Multiple">Iron as a multiple of what the tannin can bind.</param>
/// <param name="Words">What that means.</param>
/// <param name="SpareIronGrams">Copperas beyond balance, g: it darkens nothing and harms paper.</param>
public sealed record IronTannin(double Multiple, string Words, double SpareIronGrams)
{
    /// <summary>mol of iron that a mol of tannic acid binds. Conservation literature [Neevel1995], from memory; taken as ± 20 %.</summary>
    public const double BalancedMolesPerMole = 3.6;

    private const double TannicAcidMolarMass = 1701.2;
    private const double CopperasMolarMass = 278.01;
    private const double GallicAcidMolarMass = 170.12;

    /// <summary>Grams of copperas crystals that balance a gram of tannic acid: 0.588.</summary>
    public static double CopperasPerGramTannicAcid => BalancedMolesPerMole * CopperasMolarMass / TannicAcidMolarMass;

    /// <summary>Share of tannin in dry galls and barks, with its source.</summary>
    public static IReadOnlyList<(string Plant, double Share, string Source)> Shares { get; } =
    [
        ("oak apples", 0.472, "Paaver, Matto, Raal 2019"),
        ("brown shiny galls", 0.042, "Paaver, Matto, Raal 2019"),
        ("grape galls", 0.034, "Paaver, Matto, Raal 2019"),
        ("Chinese galls", 0.60, "50 to 70 %, reference page; Paaver et al. found 89 %"),
        ("Turkey galls", 0.814, "Paaver, Matto, Raal 2019"),
        ("pistacia galls", 0.524, "Paaver, Matto, Raal 2019"),
        ("oak bark", 0.091, "Paaver, Matto, Raal 2019"),
        ("tormentil root", 0.211, "Paaver, Matto, Raal 2019"),
    ];

    /// <summary>Sets iron against tannin.</summary>
    /// <param name="copperasGrams">Iron(II) sulfate crystals, g.</param>
    /// <param name="tannicAcidGrams">Tannin, g; for galls their weight times the share that went into the liquor.</param>
    /// <param name="gallicAcidGrams">Gallic acid (without water), g; binds mole for mole.</param>
    public static IronTannin Balance(double copperasGrams, double tannicAcidGrams, double gallicAcidGrams = 0)
    {
        if (!(copperasGrams >= 0))
            throw new ArgumentOutOfRangeException(nameof(copperasGrams), copperasGrams, "An amount is 0 g or more.");
        if (!(tannicAcidGrams >= 0))
            throw new ArgumentOutOfRangeException(nameof(tannicAcidGrams), tannicAcidGrams, "An amount is 0 g or more.");
        if (!(gallicAcidGrams >= 0))
            throw new ArgumentOutOfRangeException(nameof(gallicAcidGrams), gallicAcidGrams, "An amount is 0 g or more.");
        var binds = (BalancedMolesPerMole * tannicAcidGrams / TannicAcidMolarMass) + (gallicAcidGrams / GallicAcidMolarMass);
        if (binds == 0)
            return new(
                copperasGrams > 0 ? 100 : 0,
                copperasGrams > 0 ? "There is no tannin for this iron: it only rusts and harms the paper." : "Neither iron nor tannin.",
                copperasGrams
            );
        var iron = copperasGrams / CopperasMolarMass;
        var multiple = Math.Min(iron / binds, 100);
        var spare = Math.Max(0, iron - binds) * CopperasMolarMass;
        var words = multiple switch
        {
            < 0.8 => "Tannin to spare: brown-grey at first, kind to paper; a little more iron still darkens it.",
            <= 1.2 => "In balance: as dark as it gets, and about as kind to paper as an iron ink can be.",
            <= 1.6 => "More iron than the tannin can bind: no darker, and what is spare begins to harm the paper.",
            _ => "Far too much iron: it makes nothing darker and eats the paper. Add tannin, or start again with less iron.",
        };
        return new(
            multiple,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{multiple:0.0} times balance (the balance itself is known to about a fifth). {words}"
            ),
            spare
        );
    }
}

/// <summary>The strength of an unknown iron liquor, found against a known tannin.</summary>
/// <param name="IronMolesPerLitre">mol/L.</param>
/// <param name="RelativeUncertainty">One standard deviation, as a share.</param>
/// <param name="CopperasGramsPerLitre">The same iron as copperas crystals, g/L.</param>
/// <param name="Words">How to say it.</param>
public sealed record IronTitration(double IronMolesPerLitre, double RelativeUncertainty, double CopperasGramsPerLitre, string Words)
{
    /// <summary>How to do it.</summary>
    public const string Method =
        "Dissolve 0.1 g of tannic acid in 100 ml of water. Add the iron liquor drop by drop, stir, wait a minute, and put a drop on "
        + "white paper beside the last. Stop where a further drop makes it no darker, and count.";

    /// <summary>From the volume that was needed.</summary>
    /// <param name="tannicAcidGrams">Tannin in the glass, g, > 0.</param>
    /// <param name="liquorMillilitres">Iron liquor up to the end point, ml, > 0.</param>
    /// <param name="endPointMillilitres">How far off the end point may be, ml.</param>
    public static IronTitration Of(double tannicAcidGrams, double liquorMillilitres, double endPointMillilitres)
    {
        if (!(tannicAcidGrams > 0))
            throw new ArgumentOutOfRangeException(nameof(tannicAcidGrams), tannicAcidGrams, "There must be some tannin.");
        if (!(liquorMillilitres > 0))
            throw new ArgumentOutOfRangeException(nameof(liquorMillilitres), liquorMillilitres, "Some iron liquor must have been used.");
        if (!(endPointMillilitres >= 0))
            throw new ArgumentOutOfRangeException(nameof(endPointMillilitres), endPointMillilitres, "An uncertainty is 0 or more.");
        var iron = IronTannin.BalancedMolesPerMole * tannicAcidGrams / 1701.2 / liquorMillilitres * 1000;
        // The balance ratio is known to a fifth, shop tannin is a tenth water or more.
        var end = endPointMillilitres / liquorMillilitres;
        var relative = Math.Sqrt((0.2 * 0.2) + (0.1 * 0.1) + (end * end));
        var copperas = iron * 278.01;
        return new(
            iron,
            relative,
            copperas,
            string.Create(
                CultureInfo.InvariantCulture,
                $"As strong as {copperas:0.#} g of copperas in a litre, give or take {100 * relative:0} %: {copperas / 10:0.##} g "
                    + $"in 100 ml."
            )
        );
    }
}
