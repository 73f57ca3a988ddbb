using Microsoft.AspNetCore.Http;
using Rollwright.Audio.Reading;
using Rollwright.Lessons;
using Rollwright.Sound;
using Rollwright.Web.State.Jobs;

namespace Rollwright.Web.Hosting;

/// <summary>
/// Answers that are heavy work: made in their turn, not at all where whoever asked has gone; what cannot be made is said in a line.
/// </summary>
internal static class HeavyAnswers
{
    /// <param name="jobs">Of whoever asks.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="size">In the kind's unit.</param>
    /// <param name="context">The request.</param>
    /// <param name="make">Makes the answer; told when nobody waits for it any more.</param>
    public static async Task<IResult> Answer(
        this OwnJobs jobs,
        JobKind kind,
        long size,
        HttpContext context,
        Func<CancellationToken, IResult> make
    )
    {
        try
        {
            return await jobs.Run(kind, size, make, context.RequestAborted);
        }
        catch (JobException no)
        {
            if (no.IsForNow)
                context.Response.Headers.RetryAfter = "60";
            return Results.Text(
                no.Message,
                statusCode: no.IsForNow
                    ? StatusCodes.Status503ServiceUnavailable
                    : StatusCodes.Status422UnprocessableEntity
            );
        }
        catch (Exception no) when (no is LessonException or SoundException or SoundFileException)
        {
            return Results.Text(no.Message, statusCode: StatusCodes.Status422UnprocessableEntity);
        }
        catch (OperationCanceledException)
        {
            return Results.Text("It was stopped.", statusCode: StatusCodes.Status499ClientClosedRequest);
        }
    }
}
