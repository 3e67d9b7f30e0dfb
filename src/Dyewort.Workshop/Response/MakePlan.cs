using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Making;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Sets a plan out in the notebook: the jars with what is to go into them, and the sheet to paint them on; and prints the tags.</summary>
public sealed class MakePlan(NotebookDb db, SplitPot split, StartChart start, PrintJarTags tags) : IUseCase
{
    public sealed record Form
    {
        public string? Title { get; init; }

        public string? VolumeMl { get; init; }

        /// <summary>The paper to paint on, a material's key; may be empty.</summary>
        public string? Paper { get; init; }

        public string? Kind { get; init; }

        /// <summary>One entry per jar: steps as "material key=amount", separated by "|"; empty for the plain liquor.</summary>
        public IReadOnlyList<string> Jar { get; init; } = [];
    }

    /// <returns>The trial's letter.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, Form form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered();
        if (form.Jar.Count == 0) entered.Refuse(nameof(form.Jar), "The plan has no jar.", "Plan it again.");
        var materials = await db.Materials.AsNoTracking().Where(material => material.WithdrawnAt == null).ToDictionaryAsync(material => material.Id, cancel);
        var plans = new List<string>();
        foreach (var jar in form.Jar)
        {
            var steps = new List<(string, string)>();
            foreach (var step in jar.Split('|', StringSplitOptions.RemoveEmptyEntries))
            {
                var cut = step.IndexOf('=', StringComparison.Ordinal);
                var material = cut > 0 && Guid.TryParse(step.AsSpan(0, cut), out var id) ? materials.GetValueOrDefault(id) : null;
                if (material is null || !Amount.Parse(nameof(form.Jar), step[(cut + 1)..]).TryGet(out var amount)) entered.Refuse(nameof(form.Jar), "A step of the plan cannot be read.", "Plan it again.");
                else steps.Add((material.Name, amount.Text));
            }

            plans.Add(SamplePlan.Say(steps));
        }

        if (!entered.Sound) return Outcome.Refused<string>(entered.Problems);
        var poured = await split.HandleAsync(
            code,
            new() { Title = form.Title, Kind = form.Kind, Jars = form.Jar.Count.ToString(CultureInfo.InvariantCulture), VolumeMl = form.VolumeMl },
            cancel);
        if (!poured.TryGet(out var letter)) return poured;
        var samples = await (from sample in db.Samples
                             join trial in db.Trials on sample.TrialId equals trial.Id
                             join pot in db.Pots on trial.PotId equals pot.Id
                             where pot.Code == code && trial.Letter == letter
                             orderby sample.Id
                             select sample).ToListAsync(cancel);
        foreach (var (sample, plan) in samples.Zip(plans)) sample.Said = plan;
        await db.SaveChangesAsync(cancel);
        var sheet = await start.HandleAsync(code, letter, new() { Page = form.Jar.Count > 24 ? "A4" : "A5", Paper = form.Paper }, cancel);
        return sheet.TryGet(out _) ? Outcome.Of(letter) : Outcome.Refused<string>(sheet.Problems);
    }

    /// <summary>Tags for the jars of a trial: what is in them, or what is to go in.</summary>
    /// <returns>Null where there is no such trial.</returns>
    public async Task<Outcome<byte[]>?> TagsAsync(string code, string letter, CancellationToken cancel)
    {
        var samples = await (from sample in db.Samples.AsNoTracking()
                             join trial in db.Trials on sample.TrialId equals trial.Id
                             join pot in db.Pots on trial.PotId equals pot.Id
                             where pot.Code == code && trial.Letter == letter && sample.WithdrawnAt == null
                             orderby sample.Id
                             select sample).ToListAsync(cancel);
        if (samples.Count == 0) return null;
        var ids = samples.Select(sample => sample.Id).ToList();
        var done = (await (from addition in db.Additions.AsNoTracking()
                           join material in db.Materials on addition.MaterialId equals material.Id
                           where ids.Contains(addition.SampleId) && addition.WithdrawnAt == null
                           orderby addition.Step
                           select new { addition.SampleId, Words = material.Name + " " + addition.AmountText }).ToListAsync(cancel)).ToLookup(one => one.SampleId, one => one.Words);
        return tags.Handle(
            [.. samples.Select(sample => new JarTag(
                sample.Jar,
                string.Create(CultureInfo.InvariantCulture, $"{Figures.Say(sample.VolumeMl)} ml of {code}"),
                done[sample.Id].Any() ? [.. done[sample.Id]] : SamplePlan.Words(sample.Said) is { } plan and not "nothing" ? plan.Split(" + ") : []))],
            sheet: null);
    }
}
