namespace Rollwright.Class.Lessons;

/// <summary>A lesson that the class sees.</summary>
/// <param name="Id">For ever; it stays the same where the lesson is published anew.</param>
/// <param name="Title">The tune's.</param>
/// <param name="About">Key, tuning and the like, in a line.</param>
/// <param name="By">The teacher's name.</param>
/// <param name="At">When it was published last.</param>
/// <param name="IsWithdrawn">Only teachers see it now.</param>
public sealed record PublishedLesson(
    Guid Id,
    string Title,
    string About,
    string By,
    DateTimeOffset At,
    bool IsWithdrawn
);

/// <summary>A document of a published lesson, as it was when it was published.</summary>
/// <param name="Name">"page", "handout".</param>
/// <param name="FileName">Under which it is taken away.</param>
/// <param name="Type">Its media type.</param>
/// <param name="Bytes">All of it.</param>
public sealed record LessonDocument(string Name, string FileName, string Type, ReadOnlyMemory<byte> Bytes);

/// <summary>Practice that a teacher set.</summary>
/// <param name="Id">For ever.</param>
/// <param name="Lesson">Of which lesson.</param>
/// <param name="Title">The lesson's.</param>
/// <param name="Pupil">For whom, by name; null for all.</param>
/// <param name="Words">What is to be done.</param>
/// <param name="Tempo">Tempo that is aimed at, in the unit of the lesson's break a minute; null where none is.</param>
/// <param name="Due">Until when; null for no day.</param>
/// <param name="By">The teacher's name.</param>
public sealed record SetPractice(
    Guid Id,
    Guid Lesson,
    string Title,
    string? Pupil,
    string Words,
    int? Tempo,
    DateOnly? Due,
    string By
);

/// <summary>A take that a pupil handed in.</summary>
/// <param name="Id">For ever.</param>
/// <param name="Lesson">Of which lesson.</param>
/// <param name="Title">The lesson's.</param>
/// <param name="Pupil">Whose, by name.</param>
/// <param name="At">When.</param>
/// <param name="Words">What the pupil says of it; may be empty.</param>
/// <param name="Answer">What a teacher answered; empty where nobody did.</param>
/// <param name="AnsweredBy">Which; null where nobody did.</param>
public sealed record HandedIn(
    Guid Id,
    Guid Lesson,
    string Title,
    string Pupil,
    DateTimeOffset At,
    string Words,
    string Answer,
    string? AnsweredBy
);

/// <summary>How far a pupil has come with a lesson.</summary>
/// <param name="Lesson">Which.</param>
/// <param name="Title">Its title.</param>
/// <param name="Days">On how many days it was practised.</param>
/// <param name="LastDay">The last of them; null for none.</param>
/// <param name="Phrases">Phrase by phrase the fastest tempo that was played clean; 0 for none.</param>
/// <param name="Clean">Clean passes in all.</param>
/// <param name="Spoiled">Passes with a mistake in all.</param>
/// <param name="Takes">How many takes were handed in.</param>
public sealed record LessonProgress(
    Guid Lesson,
    string Title,
    int Days,
    DateOnly? LastDay,
    IReadOnlyDictionary<int, double> Phrases,
    int Clean,
    int Spoiled,
    int Takes
);
