using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop;

/// <summary>Knows which forms were answered and where that led, so that one that comes twice is written down once.</summary>
public sealed class AnswerOnce(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>As long as a sleeping phone may still hold a page with the form: a quarter of a year.</summary>
    private static readonly TimeSpan Kept = TimeSpan.FromDays(90);

    private AnsweredForm? expected;
    private bool written;

    /// <summary>True once something of the form was saved: done once more, it would be done twice.</summary>
    public bool HasWritten => written;

    /// <summary>Where the answer to this form led; null for one that was not answered.</summary>
    public Task<string?> LedToAsync(string mark, CancellationToken cancel) =>
        db.AnsweredForms.Where(one => one.Mark == mark).Select(one => one.LedTo).SingleOrDefaultAsync(cancel);

    /// <summary>Says which form is being answered: its mark is written in one transaction with the first thing that it writes.</summary>
    /// <param name="mark">What tells it from every other form.</param>
    /// <param name="page">The page on which it stands; a second arrival is led there if the power fails before the answer is known.</param>
    public void Expect(string mark, string page)
    {
        expected = new()
        {
            Mark = mark,
            AnsweredAt = clock.GetUtcNow(),
            LedTo = page,
        };
        db.SavingChanges += (_, _) =>
        {
            if (!written && db.Entry(expected).State == EntityState.Detached)
                db.Add(expected);
        };
        db.SavedChanges += (_, _) => written = true;
    }

    /// <summary>The form was answered. One that wrote nothing may come again without harm and is not kept.</summary>
    public async Task DoneAsync(string ledTo)
    {
        if (written)
            await db
                .AnsweredForms.Where(one => one.Mark == expected!.Mark)
                .ExecuteUpdateAsync(form => form.SetProperty(one => one.LedTo, ledTo), CancellationToken.None);
    }

    /// <summary>The form was refused: sent again, it is to be tried again.</summary>
    public async Task RefusedAsync()
    {
        if (written)
            await db.AnsweredForms.Where(one => one.Mark == expected!.Mark).ExecuteDeleteAsync(CancellationToken.None);
    }

    /// <summary>Erases what was answered so long ago that nobody will send it again.</summary>
    public Task ForgetOldAsync(CancellationToken cancel)
    {
        var oldest = clock.GetUtcNow() - Kept;
        return db.AnsweredForms.Where(one => one.AnsweredAt < oldest).ExecuteDeleteAsync(cancel);
    }
}
