using System.Text;
using Rollwright.Audio;
using Rollwright.Listening.Beside.Evidence;
using Rollwright.Listening.Beside.Following;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Beside;

public static class BesideBreak
{
    public static string Dump(Samples sound, Meant meant)
    {
        var heard = Listener.Listen(sound);
        var followed = Followed.Of(heard.Notes, meant, default);
        var mono = OneSide.Of(sound);
        var sounding = new Sounding(mono, sound.Rate);
        var judge = new Judge(sounding, new(sounding.Bins, sounding.BinWidth, heard.Cents), followed, default);
        var text = new StringBuilder();
        foreach (var run in followed.Runs)
        {
            text.Append($"run {run.First} .. {run.Last}\n");
            var local = new LocalTempo([.. run.Pairs.Select(p => (followed.Meant[p.Meant].At, judge.OnsetOf(followed.Heard[p.Heard])))], meant.WholeNote);
            var by = run.Pairs.ToDictionary(p => p.Meant);
            for (var j = run.First.Meant; j <= run.Last.Meant; j++)
            {
                var g = followed.Meant[j];
                Gesture? h = by.TryGetValue(j, out var pair) ? followed.Heard[pair.Heard] : null;
                var expected = local.Of(g.At);
                var onset = h is null ? sounding.Attack(expected.Seconds - 0.06, expected.Seconds + 0.06).Onset : judge.OnsetOf(h);
                var next = followed.Heard.FirstOrDefault(x => x.At > onset + 0.04)?.At ?? 1e9;
                var verdict = judge.Of(g, h?.Pitches ?? [], g.Notes.All(n => meant.Notes[n].IsSlurred), onset, next);
                for (var k = 0; k < g.Notes.Length; k++)
                    text.Append($"id {meant.Notes[g.Notes[k]].Id} {g.Pitches[k]} {verdict.Notes[k].Label} {verdict.Notes[k].Instead} @ {onset:0.0000} blind {string.Join(",", h?.Pitches ?? [])}\n");
                foreach (var a in verdict.Added)
                    text.Append($"added {onset:0.000} {a}\n");
            }
            var used = run.Pairs.Select(p => p.Heard).ToHashSet();
            for (var i = run.First.Heard; i <= run.Last.Heard; i++)
                if (!used.Contains(i))
                {
                    var h = followed.Heard[i];
                    var next = i + 1 < followed.Heard.Count ? followed.Heard[i + 1].At : 1e9;
                    text.Append($"added {judge.OnsetOf(h):0.000} {string.Join(",", h.Pitches)} {judge.Features(h, next)} before {(i > 0 ? $"{h.At - followed.Heard[i - 1].At:0.000} {string.Join(",", followed.Heard[i - 1].Pitches)}" : "")} after {next - h.At:0.000}\n");
                }
        }
        return text.ToString();
    }
}
