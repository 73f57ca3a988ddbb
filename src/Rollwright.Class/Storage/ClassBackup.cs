using System.IO.Compression;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Rollwright.Class.People;
using Rollwright.Library.Backups;

namespace Rollwright.Class.Storage;

/// <summary>
/// A class in a backup of its library, under class/: members with what their passwords are checked against, lessons with their
/// documents, set practice, takes handed in. Invitations and the keys of sign-ins are left out: who has the backup must not come in
/// by it, and members sign in anew after a restore.
/// </summary>
internal sealed class ClassBackup(Classroom room) : IBackupPart
{
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public Task WriteAsync(ZipArchive zip) =>
        room.Ask(async context =>
        {
            await using var moment = await context.Database.BeginTransactionAsync(
                System.Data.IsolationLevel.RepeatableRead
            );
            var members = await context.Users.AsNoTracking().OrderBy(row => row.NormalizedUserName).ToListAsync();
            Put(zip, "members", members.Select(KeptMember.Of));
            Put(zip, "lessons", await context.Lessons.AsNoTracking().OrderBy(row => row.At).ToListAsync());
            Put(zip, "copies", await context.Copies.AsNoTracking().ToListAsync());
            Put(zip, "practice", await context.Practice.AsNoTracking().OrderBy(row => row.At).ToListAsync());
            Put(zip, "takes", await context.Takes.AsNoTracking().OrderBy(row => row.At).ToListAsync());
            var documents = await context
                .Documents.AsNoTracking()
                .Select(row => new { row.Lesson, row.Name })
                .ToListAsync();
            // One after the other: all of them together may be more than memory has.
            foreach (var one in documents)
                Put(
                    zip,
                    $"documents/{one.Lesson}-{one.Name}",
                    await context
                        .Documents.AsNoTracking()
                        .SingleAsync(row => row.Lesson == one.Lesson && row.Name == one.Name)
                );
            return true;
        });

    public Task ReadAsync(ZipArchive zip) =>
        room.Change(async context =>
        {
            var members = Get<KeptMember>(zip, "members").Select(kept => kept.Row()).ToList();
            var ids = (await context.Users.Select(row => row.Id).ToListAsync()).ToHashSet(StringComparer.Ordinal);
            var names = (await context.Users.Select(row => row.NormalizedUserName!).ToListAsync()).ToHashSet(
                StringComparer.Ordinal
            );
            var newMembers = members.Where(row => !ids.Contains(row.Id)).ToList();
            if (newMembers.FirstOrDefault(row => names.Contains(row.NormalizedUserName!)) is { } twice)
                throw new ClassException(
                    $"'{twice.UserName}' of the backup is another member than the '{twice.UserName}' of this class; restore it into a database of its own"
                );
            context.Users.AddRange(newMembers);
            var lessons = (await context.Lessons.Select(row => row.Id).ToListAsync()).ToHashSet();
            context.Lessons.AddRange(Get<PublishedRow>(zip, "lessons").Where(row => !lessons.Contains(row.Id)));
            context.Documents.AddRange(
                zip.Entries.Where(entry => entry.FullName.StartsWith("class/documents/", StringComparison.Ordinal))
                    .Select(Read<DocumentRow>)
                    .Where(row => !lessons.Contains(row.Lesson))
            );
            var copies = (await context.Copies.Select(row => new { row.Lesson, row.Member }).ToListAsync()).ToHashSet();
            context.Copies.AddRange(
                Get<CopyRow>(zip, "copies").Where(row => !copies.Contains(new { row.Lesson, row.Member }))
            );
            var practice = (await context.Practice.Select(row => row.Id).ToListAsync()).ToHashSet();
            context.Practice.AddRange(Get<SetPracticeRow>(zip, "practice").Where(row => !practice.Contains(row.Id)));
            var takes = (await context.Takes.Select(row => row.Id).ToListAsync()).ToHashSet();
            context.Takes.AddRange(Get<HandedInRow>(zip, "takes").Where(row => !takes.Contains(row.Id)));
            return true;
        });

    private static void Put<T>(ZipArchive zip, string name, T value)
    {
        using var stream = zip.CreateEntry($"class/{name}.json").Open();
        JsonSerializer.Serialize(stream, value, Form);
    }

    // A backup of a library that no class shares has none of it.
    private static List<T> Get<T>(ZipArchive zip, string name) =>
        zip.GetEntry($"class/{name}.json") is { } entry ? Read<List<T>>(entry) : [];

    private static T Read<T>(ZipArchiveEntry entry)
    {
        using var stream = entry.Open();
        return JsonSerializer.Deserialize<T>(stream, Form)
            ?? throw new InvalidDataException($"{entry.FullName} is empty");
    }

    /// <summary>What of a member is kept in a backup.</summary>
    private sealed record KeptMember(
        string Id,
        string Name,
        Role Role,
        DateTimeOffset JoinedAt,
        DateTimeOffset? ClosedAt,
        string? PasswordHash
    )
    {
        public static KeptMember Of(Member row) =>
            new(row.Id, row.UserName!, row.Role, row.JoinedAt, row.ClosedAt, row.PasswordHash);

        public Member Row() =>
            new()
            {
                Id = Id,
                UserName = Name,
                NormalizedUserName = Name.ToUpperInvariant(),
                Role = Role,
                JoinedAt = JoinedAt,
                ClosedAt = ClosedAt,
                PasswordHash = PasswordHash,
                LockoutEnabled = true,
                SecurityStamp = Secret.Draw(),
            };
    }
}
