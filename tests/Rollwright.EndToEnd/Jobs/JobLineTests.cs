using CsCheck;
using Rollwright.Banjo.Data;
using Rollwright.Web.State.Jobs;

namespace Rollwright.EndToEnd.Jobs;

/// <summary>The line of heavy work: who has their turn when, and what is refused, stopped or broken off.</summary>
public class JobLineTests
{
    private static readonly JobKind Long = new("listening", true, TimeSpan.FromHours(1), 100, "bars", 0, "cut it");
    private static readonly JobKind Short = Long with { Words = "arranging", IsLong = false };

    [Fact]
    public async Task A_few_are_under_way_and_the_others_see_how_many_are_before_them()
    {
        var line = new JobLine(new(2, 10, 10));
        Held[] held = [.. Enumerable.Range(0, 5).Select(i => new Held(line, Long, $"person {i}"))];
        held.Select(job => job.HasBegun).Should().Equal(true, true, false, false, false);
        held.Select(job => job.Before).Should().Equal(0, 0, 1, 2, 3);
        await held[1].End();
        held.Select(job => job.Before).Should().Equal(0, null, 0, 1, 2);
        await held[0].End();
        await held[2].End();
        await held[3].End();
        await held[4].End();
        line.Of("person 4").Should().BeEmpty();
    }

    [Fact]
    public async Task A_short_job_passes_long_ones_by()
    {
        var line = new JobLine(new(1, 10, 10));
        var first = new Held(line, Long, "Ada");
        var second = new Held(line, Long, "Ben");
        var third = new Held(line, Short, "Cleo");
        var fourth = new Held(line, Short, "Dora");
        (first.Before, second.Before, third.Before, fourth.Before).Should().Be((0, 1, 0, 1));
        await third.End();
        (second.Before, fourth.Before).Should().Be((1, 0));
        foreach (var job in new[] { first, fourth, second })
            await job.End();
    }

    [Fact]
    public async Task Whoever_has_one_job_waits_for_one_of_everybody_s_at_most()
    {
        await Gen.Int[0, 3]
            .Array[1, 20]
            .SampleAsync(
                async people =>
                {
                    var line = new JobLine(new(1, 100, 100));
                    var begun = new List<string>();
                    var under = new Held(line, Long, "already there");
                    Held[] held = [.. people.Select(person => new Held(line, Long, $"{person}", begun))];
                    var late = new Held(line, Long, "late", begun);
                    await under.End();
                    foreach (var _ in held)
                        await held.Append(late).First(job => job.HasBegun && !job.IsOver).End();
                    await held.Append(late).First(job => !job.IsOver).End();
                    var before = begun.TakeWhile(person => person != "late").ToList();
                    before.Should().OnlyHaveUniqueItems();
                    // Of one person those go first that came first.
                    foreach (var own in held.GroupBy(job => job.Person))
                        own.Select(job => job.Rank).Should().BeInAscendingOrder();
                },
                iter: 100,
                threads: 1
            );
    }

    [Fact]
    public async Task The_line_has_an_end_and_so_has_one_person_s_share_of_it()
    {
        var line = new JobLine(new(1, 3, 2));
        var under = new Held(line, Long, "Ada");
        Held[] ofBen = [new(line, Long, "Ben"), new(line, Long, "Ben")];
        await Refused(line, "Ben", "2 jobs of yours wait already; wait until one is done, or stop one");
        var cleo = new Held(line, Long, "Cleo");
        await Refused(
            line,
            "Dora",
            "3 jobs wait already, and the server takes no more just now; nothing is lost, try again in a minute"
        );
        await under.End();
        var dora = new Held(line, Long, "Dora");
        dora.Before.Should().BePositive("there is room again");
        foreach (var job in new[] { ofBen[0], cleo, dora, ofBen[1] })
            await job.End();
    }

    [Fact]
    public async Task What_is_stopped_leaves_the_line_and_never_begins()
    {
        var line = new JobLine(new(1, 10, 10));
        var under = new Held(line, Long, "Ada");
        var stopped = new Held(line, Long, "Ben");
        var next = new Held(line, Long, "Cleo");
        stopped.Job.Stop();
        await ((Func<Task>)(() => stopped.Answer)).Should().ThrowAsync<OperationCanceledException>();
        next.Before.Should().Be(1);
        await under.End();
        (stopped.HasBegun, next.HasBegun).Should().Be((false, true));
        await next.End();
    }

    [Fact]
    public async Task Whoever_stops_is_answered_at_once_and_the_place_is_free_when_the_work_is_over()
    {
        var line = new JobLine(new(1, 10, 10));
        var deaf = new Held(line, Long, "Ada");
        var next = new Held(line, Long, "Ben");
        deaf.Job.Stop();
        await ((Func<Task>)(() => deaf.Answer)).Should().ThrowAsync<OperationCanceledException>();
        line.Of("Ada").Should().BeEmpty("nobody waits for it");
        next.HasBegun.Should().BeFalse("what does not look up is still at it");
        deaf.Release();
        await next.Begun;
        await next.End();
    }

    [Fact]
    public async Task What_takes_too_long_is_broken_off_and_told_so()
    {
        var line = new JobLine(new(1, 10, 10));
        var endless = new Held(line, Long with { Time = TimeSpan.FromMilliseconds(1) }, "Ada");
        (await ((Func<Task>)(() => endless.Answer)).Should().ThrowAsync<JobException>()).WithMessage(
            "listening took longer than 0 seconds; cut it"
        );
        endless.Release();
    }

    [Fact]
    public async Task What_is_too_large_is_not_taken()
    {
        var line = new JobLine(new(1, 10, 10));
        var ask = () => line.Run(Long, "Ada", 101, _ => Task.FromResult(1));
        (await ask.Should().ThrowAsync<JobException>()).WithMessage(
            "listening: 101 bars are more than the server takes (100); cut it"
        );
    }

    [Fact]
    public async Task What_fails_leaves_its_place()
    {
        var line = new JobLine(new(1, 10, 10));
        var ask = () => line.Run<int>(Long, "Ada", 1, _ => throw new InvalidOperationException("ours"));
        await ask.Should().ThrowAsync<InvalidOperationException>();
        (await line.Run(Long, "Ada", 1, _ => Task.FromResult(7))).Should().Be(7);
    }

    [Fact]
    public async Task Nobody_waits_for_what_a_page_asked_that_is_gone_and_small_work_stands_in_no_line()
    {
        var line = new JobLine(new(1, 10, 10));
        Held[] all = [new(line, Long, "Ben"), new(line, Short, "Ben")];
        var page = new OwnJobs(line, () => "Ada");
        var waits = page.Run(Long, 1, _ => 1);
        page.All.Should().ContainSingle().Which.Before.Should().Be(1);
        (await page.Run(Long with { AtOnce = 5 }, 5, _ => 2)).Should().Be(2);
        page.Dispose();
        await ((Func<Task>)(() => waits)).Should().ThrowAsync<OperationCanceledException>();
        await ((Func<Task>)(() => page.Run(Long, 1, _ => 1))).Should().ThrowAsync<OperationCanceledException>();
        line.Of("Ada").Should().BeEmpty();
        foreach (var job in all)
            await job.End();
    }

    [Theory]
    [InlineData("x | sounding | middling | 1 | 1 | bars | 0 | cut it", "mine.txt:2:16: a job is long or short")]
    [InlineData("x | sounding | long | 0 | 1 | bars | 0 | cut it", "mine.txt:2:23: seconds is at least 1")]
    [InlineData("x | sounding | long | 1 | many | bars | 0 | cut it", "mine.txt:2: most 'many' is not a whole number")]
    public void A_wrong_bound_is_refused_with_file_and_line(string row, string what)
    {
        var reading = () => JobKind.Parse("mine.txt", $"kind|words|length|seconds|most|unit|at-once|remedy\n{row}\n");
        reading.Should().Throw<DataException>().WithMessage(what);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(8, 7)]
    public void Long_jobs_leave_a_core_to_the_others(int cores, int places) =>
        JobBounds.Read(BuiltInData.Text("job-line.txt"), cores).Places.Should().Be(places);

    private static async Task Refused(JobLine line, string person, string words)
    {
        var ask = () => line.Run(Long, person, 1, _ => Task.FromResult(1));
        (await ask.Should().ThrowAsync<JobException>())
            .Which.Should()
            .Match<JobException>(no => no.Message == words && no.IsForNow);
    }

    /// <summary>A job that works until it is let go, and never looks up.</summary>
    private sealed class Held
    {
        private readonly TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private readonly TaskCompletionSource<int> over = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private readonly JobLine line;
        private readonly List<string> order;

        public Held(JobLine line, JobKind kind, string person, List<string>? order = null)
        {
            (this.line, Person, this.order) = (line, person, order ?? []);
            var before = line.Of(person).Select(own => own.Job).ToHashSet();
            Answer = line.Run(kind, person, 1, Work);
            Job = line.Of(person).Select(own => own.Job).Single(own => !before.Contains(own));
        }

        public string Person { get; }

        public Job Job { get; }

        public Task<int> Answer { get; }

        public Task Begun => begun.Task;

        public bool IsOver => over.Task.IsCompleted;

        /// <summary>The line has let it begin, though its work may still be on its way.</summary>
        public bool HasBegun => Before == 0;

        public int? Before =>
            line.Of(Person).Where(own => own.Job == Job).Select(own => (int?)own.Before).SingleOrDefault();

        /// <summary>How many had begun before it, of those that count.</summary>
        public int Rank { get; private set; }

        public void Release() => over.TrySetResult(1);

        public async Task End()
        {
            await Begun;
            Release();
            await Answer;
        }

        private Task<int> Work(CancellationToken ended)
        {
            lock (order)
            {
                Rank = order.Count;
                order.Add(Person);
            }
            begun.TrySetResult();
            return over.Task;
        }
    }
}
