using System.Net;
using System.Text;
using CsCheck;
using Rollwright.Class.People;
using Rollwright.Library.Storage;

namespace Rollwright.Class.Tests.Fuzzing;

/// <summary>What the fuzz of the routes has found, each by itself.</summary>
public class OddTextTests
{
    [Theory]
    [InlineData("/?open=0")]
    [InlineData("/?open=%00")]
    public async Task A_page_opens_whatever_stands_behind_its_address(string path)
    {
        await using var shared = await SharedClass.OpenAsync();
        var (pupil, _) = await shared.Enter("Ben", Role.Pupil);
        using var answer = await pupil.Get(path);
        answer.StatusCode.Should().Be(HttpStatusCode.OK);
    }

    [Fact]
    public async Task A_text_with_signs_that_the_database_has_not_is_kept_without_them()
    {
        await using var shared = await SharedClass.OpenAsync();
        var (_, ada) = await shared.Enter("Ada", Role.Teacher);
        var lesson = await shared.Publish(ada, "Wr\0en \uD83E");
        // A form of parts brings it as it is.
        await shared.Room.SetPracticeAsync(ada, lesson, null, "slow\0ly", null, null);
        (await shared.Room.PracticeAsync(ada)).Single().Words.Should().Be("slow\uFFFDly");
        (await shared.Room.LessonsAsync(ada)).Single().Title.Should().Be("Wr\uFFFDen \uFFFD");
        (await shared.Room.FindMemberAsync("A\0da")).Should().BeNull();
    }

    [Theory]
    [InlineData("utf-7", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("latin1", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("UTF-8", HttpStatusCode.BadRequest)] // it has no token
    public async Task A_form_comes_in_UTF_8(string letters, HttpStatusCode status)
    {
        await using var shared = await SharedClass.OpenAsync();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in")
        {
            Content = new ByteArrayContent("name=Ada"u8.ToArray())
            {
                Headers = { { "Content-Type", $"application/x-www-form-urlencoded; charset={letters}" } },
            },
        };
        using var answer = await shared.Nobody.Send(request);
        answer.StatusCode.Should().Be(status);
    }

    [Fact]
    public void Any_text_becomes_one_that_can_be_kept_and_a_good_one_stays_the_same() =>
        Gen
            .Char.Array[0, 40]
            .Select(letters => new string(letters))
            .Sample(text =>
            {
                var kept = StorableText.Of(text);
                kept.Should().NotContain("\0");
                var strict = new UTF8Encoding(false, throwOnInvalidBytes: true);
                strict.GetString(strict.GetBytes(kept)).Should().Be(kept);
                StorableText.Of(kept).Should().Be(kept);
                if (!text.Contains('\0', StringComparison.Ordinal) && !text.Any(char.IsSurrogate))
                    kept.Should().Be(text);
            });
}
