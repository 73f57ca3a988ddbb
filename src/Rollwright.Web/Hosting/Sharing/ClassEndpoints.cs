using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Web.Pages.Sharing;
using Rollwright.Web.State.Sharing;

namespace Rollwright.Web.Hosting.Sharing;

/// <summary>
/// The class under /class: what every member sees, and what only teachers may. A form is answered by a page to go to, so that a
/// page asked for again changes nothing.
/// </summary>
internal static class ClassEndpoints
{
    public static void MapClass(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/class", Lessons);
        routes.MapGet("/class/progress", OwnProgress);
        routes.MapGet("/class/lessons/{id:guid}", Lesson);
        routes.MapGet("/class/lessons/{id:guid}/page", LessonPage);
        routes.MapGet("/class/lessons/{id:guid}/take/{document}", Document);
        routes.MapPost("/class/lessons/{id:guid}/open", Open);

        var teachers = routes.MapGroup("").RequireAuthorization(SignIn.Teachers);
        teachers.MapGet("/class/members", Members);
        teachers.MapPost("/class/members/invite", Invite);
        teachers.MapGet("/class/members/{id}", Progress);
        teachers.MapPost("/class/members/{id}/link", Link);
        teachers.MapPost("/class/members/{id}/close", Close);
        teachers.MapPost("/class/lessons/{id:guid}/withdraw", Withdraw);
        teachers.MapPost("/class/lessons/{id:guid}/practice", SetPractice);
        teachers.MapPost("/class/practice/{id:guid}/unset", UnsetPractice);
    }

    private static async Task<IResult> Lessons(Visit visit, Classroom room) =>
        DoorEndpoints.Page<LessonsPage>(
            new
            {
                Person = visit.Someone,
                Lessons = await room.LessonsAsync(visit.Someone),
                Practice = await room.PracticeAsync(visit.Someone),
            }
        );

    private static async Task<IResult> OwnProgress(Visit visit, Classroom room) =>
        DoorEndpoints.Page<ProgressPage>(
            new
            {
                Person = visit.Someone,
                visit.Someone.Name,
                IsOwn = true,
                Progress = await room.ProgressAsync(visit.Someone, visit.Someone.Id),
                Takes = await room.TakesAsync(visit.Someone, pupil: visit.Someone.Id),
            }
        );

    private static async Task<IResult> Progress(string id, Visit visit, Classroom room)
    {
        var member =
            (await room.MembersAsync(visit.Someone)).FirstOrDefault(member => member.Id == id)
            ?? throw new NotForYouException();
        return DoorEndpoints.Page<ProgressPage>(
            new
            {
                Person = visit.Someone,
                member.Name,
                IsOwn = false,
                Progress = await room.ProgressAsync(visit.Someone, id),
                Takes = await room.TakesAsync(visit.Someone, pupil: id),
            }
        );
    }

    private static async Task<IResult> Lesson(Guid id, Visit visit, Classroom room) =>
        DoorEndpoints.Page<LessonOfClassPage>(
            new
            {
                Person = visit.Someone,
                Lesson = await room.LessonAsync(visit.Someone, id),
                Documents = await room.DocumentsAsync(visit.Someone, id),
                Practice = (await room.PracticeAsync(visit.Someone)).Where(set => set.Lesson == id).ToList(),
                Takes = await room.TakesAsync(visit.Someone, id),
                Members = visit.Someone.IsTeacher ? await room.MembersAsync(visit.Someone) : [],
            }
        );

    private static async Task<IResult> LessonPage(Guid id, Visit visit, Classroom room, HttpContext context)
    {
        var page = await room.DocumentAsync(visit.Someone, id, "page");
        // It brings a policy of its own, stricter than the workbench's but for one script.
        context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'none'";
        return Results.Bytes(page.Bytes, page.Type);
    }

    private static async Task<IResult> Document(Guid id, string document, Visit visit, Classroom room)
    {
        var found = await room.DocumentAsync(visit.Someone, id, document);
        return Results.Bytes(found.Bytes, found.Type, found.FileName);
    }

    // The form is bound so that its token is asked for; so are those below.
    private static async Task<IResult> Open(Guid id, [FromForm] string? lesson, Visit visit, Classroom room) =>
        Results.LocalRedirect($"/?open={await room.TakeHomeAsync(visit.Someone, id)}");

    private static async Task<IResult> Members(Visit visit, Classroom room) =>
        await MembersWith(visit, room, "", "", "");

    private static async Task<IResult> MembersWith(
        Visit visit,
        Classroom room,
        string link,
        string linkFor,
        string trouble
    ) =>
        DoorEndpoints.Page<MembersPage>(
            new
            {
                Person = visit.Someone,
                Members = await room.MembersAsync(visit.Someone),
                Link = link,
                LinkFor = linkFor,
                Trouble = trouble,
            },
            trouble.Length == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity
        );

    // The link is on the answer itself and nowhere else: an address that showed it could be opened twice.
    private static async Task<IResult> Invite(
        [FromForm] string? name,
        [FromForm] string? role,
        Visit visit,
        Classroom room,
        ClassServing serving,
        HttpRequest request
    )
    {
        try
        {
            if (RoleWords.Read(role) is not { } known)
                throw new ClassException("a member is a teacher or a pupil");
            var made = await room.InviteAsync(visit.Someone, name ?? "", known);
            return await MembersWith(visit, room, LinkOf(serving, request, made), name!.Trim(), "");
        }
        catch (ClassException no)
        {
            return await MembersWith(visit, room, "", "", no.Message);
        }
    }

    private static async Task<IResult> Link(
        string id,
        [FromForm] string? name,
        Visit visit,
        Classroom room,
        ClassServing serving,
        HttpRequest request
    ) =>
        await MembersWith(
            visit,
            room,
            LinkOf(serving, request, await room.NewPasswordAsync(visit.Someone, id)),
            name ?? "",
            ""
        );

    private static async Task<IResult> Close(string id, [FromForm] bool closed, Visit visit, Classroom room)
    {
        await room.CloseAsync(visit.Someone, id, closed);
        return Results.LocalRedirect("/class/members");
    }

    private static async Task<IResult> Withdraw(Guid id, [FromForm] bool withdrawn, Visit visit, Classroom room)
    {
        await room.WithdrawAsync(visit.Someone, id, withdrawn);
        return Results.LocalRedirect($"/class/lessons/{id}");
    }

    private static async Task<IResult> SetPractice(
        Guid id,
        [FromForm] string? words,
        [FromForm] string? pupil,
        [FromForm] string? tempo,
        [FromForm] string? due,
        Visit visit,
        Classroom room
    )
    {
        // Boxes that are left empty come as empty text.
        int? aim =
            string.IsNullOrWhiteSpace(tempo) ? null
            : int.TryParse(tempo, CultureInfo.InvariantCulture, out var read) ? read
            : throw new ClassException("a tempo is a whole number, 20 to 400 a minute");
        DateOnly? until =
            string.IsNullOrWhiteSpace(due) ? null
            : DateOnly.TryParseExact(due, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
                ? day
            : throw new ClassException("a day is written as 2026-03-02");
        await room.SetPracticeAsync(
            visit.Someone,
            id,
            string.IsNullOrEmpty(pupil) ? null : pupil,
            words ?? "",
            aim,
            until
        );
        return Results.LocalRedirect($"/class/lessons/{id}");
    }

    private static async Task<IResult> UnsetPractice(Guid id, [FromForm] Guid lesson, Visit visit, Classroom room)
    {
        await room.UnsetPracticeAsync(visit.Someone, id);
        return Results.LocalRedirect($"/class/lessons/{lesson}");
    }

    private static string LinkOf(ClassServing serving, HttpRequest request, MadeInvitation made) =>
        new Uri(
            serving.Address ?? new Uri($"{request.Scheme}://{request.Host}"),
            $"/invitation/{made.Secret}"
        ).ToString();
}
