namespace Rollwright.Library.Kept;

/// <summary>A lesson of a break: the program's words are made anew each time, a person's own are kept.</summary>
/// <param name="Id">Its name for ever.</param>
/// <param name="Break">The break's.</param>
/// <param name="Title">What the person calls it.</param>
/// <param name="Edits">The person's own words, with the notes that they speak of (JSON).</param>
/// <param name="ChangedAt">When it was changed last.</param>
public sealed record KeptLesson(Guid Id, Guid Break, string Title, string Edits, DateTimeOffset ChangedAt);
