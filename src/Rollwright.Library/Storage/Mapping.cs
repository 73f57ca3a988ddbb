using Rollwright.Library.Kept;

namespace Rollwright.Library.Storage;

/// <summary>Between rows and what is handed out.</summary>
internal static class Mapping
{
    public static KeptTune Kept(TuneRow row) =>
        new(
            row.Id,
            row.Title,
            row.Abc,
            row.Key,
            row.Metre,
            row.Composer,
            row.Source,
            [.. row.Tags.Split('\n', StringSplitOptions.RemoveEmptyEntries)],
            row.Fingerprint,
            row.AddedAt
        );

    public static TuneRow Row(KeptTune tune) =>
        new()
        {
            Id = tune.Id,
            Title = tune.Title,
            Abc = tune.Abc,
            Key = tune.Key,
            Metre = tune.Metre,
            Composer = tune.Composer,
            Source = tune.Source,
            Tags = string.Join('\n', tune.Tags),
            Fingerprint = tune.Fingerprint,
            SearchText = Folded.Text([
                tune.Title,
                tune.Composer,
                tune.Key,
                tune.Source,
                .. tune.Tags,
                .. tune.Abc.Split('\n').Where(IsWords),
            ]),
            AddedAt = tune.AddedAt,
        };

    public static KeptBreak Kept(BreakRow row) => new(row.Id, row.Tune, row.Title, row.Current, row.ChangedAt);

    public static KeptPractice Kept(PracticeRow row) => new(row.Day, row.Phrase, row.Tempo, row.Clean, row.Spoiled);

    public static Revision Kept(RevisionRow row) =>
        new(row.Number, row.Parent, row.At, row.By, row.Words, row.Wishes, row.Json, row.Draft);

    public static RevisionRow Row(Guid id, Revision revision) =>
        new()
        {
            Break = id,
            Number = revision.Number,
            Parent = revision.Parent,
            At = revision.At,
            By = revision.By,
            Words = revision.Words,
            Wishes = revision.Wishes,
            Json = revision.Break,
            Draft = revision.Draft,
        };

    public static KeptLick Kept(OwnLickRow row) => new(row.Id, row.Name, row.Row, row.AddedAt);

    public static OwnLickRow Row(KeptLick lick) =>
        new()
        {
            Id = lick.Id,
            Name = lick.Name,
            Row = lick.Row,
            AddedAt = lick.AddedAt,
        };

    public static KeptLesson Kept(LessonRow row) => new(row.Id, row.Break, row.Title, row.Edits, row.ChangedAt);

    public static LessonRow Row(KeptLesson lesson) =>
        new()
        {
            Id = lesson.Id,
            Break = lesson.Break,
            Title = lesson.Title,
            Edits = lesson.Edits,
            ChangedAt = lesson.ChangedAt,
        };

    public static KeptTake Kept(TakeRow row) => new(row.Id, row.Break, row.At, row.Digest, row.Ending, row.Notes);

    public static TakeRow Row(KeptTake take) =>
        new()
        {
            Id = take.Id,
            Break = take.Break,
            At = take.At,
            Digest = take.Digest,
            Ending = take.Ending,
            Notes = take.Notes,
        };

    // Fields of ABC that hold words rather than music: titles, rhythm, origin, history, notes, words.
    private static bool IsWords(string line) => line.Length > 2 && line[1] == ':' && "TRONHWZSBD".Contains(line[0]);
}
