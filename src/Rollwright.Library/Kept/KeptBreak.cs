namespace Rollwright.Library.Kept;

/// <summary>A break of a tune as it is kept: its revisions are asked for one by one.</summary>
/// <param name="Id">Its name for ever.</param>
/// <param name="Tune">The tune's.</param>
/// <param name="Title">What the person calls it.</param>
/// <param name="Current">Number of the revision that is shown.</param>
/// <param name="ChangedAt">When it was changed last.</param>
public sealed record KeptBreak(Guid Id, Guid Tune, string Title, int Current, DateTimeOffset ChangedAt);

/// <summary>One state of a break. Revisions are added and never changed.</summary>
/// <param name="Number">From 1 within its break.</param>
/// <param name="Parent">The revision that it was made of; null for the first.</param>
/// <param name="At">When.</param>
/// <param name="By">Who; may be empty.</param>
/// <param name="Words">What was done: "level 4", "bar 3, beat 2: string 3 fret 2".</param>
/// <param name="Wishes">What was asked for, as the workbench writes it (JSON); may be empty.</param>
/// <param name="Break">The break in the published form of docs/break.schema.json.</param>
/// <param name="Draft">Id of the draft that became it; null of those kept before drafts had one.</param>
public sealed record Revision(
    int Number,
    int? Parent,
    DateTimeOffset At,
    string By,
    string Words,
    string Wishes,
    string Break,
    Guid? Draft = null
);

/// <summary>A state that is to be kept.</summary>
/// <param name="Id">Made where the state is made, once: saved twice, it is one revision.</param>
/// <param name="Words">What was done.</param>
/// <param name="Wishes">What was asked for.</param>
/// <param name="Break">The break in the published form.</param>
/// <param name="By">Who; may be empty.</param>
public sealed record Draft(Guid Id, string Words, string Wishes, string Break, string By = "");

/// <summary>What came of saving.</summary>
public abstract record SaveOutcome
{
    /// <summary>It is kept, and on the disk.</summary>
    public sealed record Saved(Revision Revision) : SaveOutcome;

    /// <summary>Someone else was faster: nothing was changed, and this is what is there now.</summary>
    public sealed record Conflict(Revision Theirs) : SaveOutcome;
}
