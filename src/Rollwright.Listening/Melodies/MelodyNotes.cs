namespace Rollwright.Listening.Melodies;

/// <summary>
/// Notes of a pitch track: the likeliest path through semitones and silence (Viterbi), which lets vibrato swing about a
/// semitone and a slide pass through others; then one note is two where the bow or the tongue begins anew.
/// </summary>
internal static class MelodyNotes
{
    private const int Lowest = 40;
    private const int Highest = 103;

    // Semitones that a pitch may lie off its note: vibrato, and fingers without frets (assumption).
    private const double Spread = 0.35;

    // What a change of note costs, in natural logarithms of chance: about 40 ms of clear sound.
    private const double Change = 14;
    private const double Faint = 0.002;

    // 45 dB below the loud part there is silence; shorter than this is an ornament or a fault (assumptions).
    private const double Silence = 3e-5;
    private const double Shortest = 0.045;

    // A note begins anew where the rise of the spectrum, as a part of the usual beginning, times the rise of power in
    // doublings is this (tried on fluidsynth's fiddles, flutes and recorders).
    private const double Anew = 1.4;

    // And before it the power sinks to this part of what the note had so far (tried on three tunes, fiddle and whistle).
    private const float Sunk = 0.5f;

    private const double ShadowSeconds = 0.1;
    private const int ShadowBelow = 5;

    // Frames from where it begins to where it is clear, about, and how far it may be from that; frames by which a rise is
    // seen late (measured on the same).
    private const int Usual = 9;
    private const int Around = 5;
    private const int FluxLate = 1;

    private readonly record struct Span(int From, int To, int Key);

    /// <param name="frames">The track.</param>
    /// <param name="offset">Semitones that the player is above a' = 440 Hz.</param>
    public static List<MelodyNote> Of(List<PitchFrame> frames, double offset)
    {
        if (frames.Count == 0)
            return [];
        var loud = frames.Select(frame => frame.Power).Order().ElementAt((int)(0.9 * (frames.Count - 1)));
        var path = Path(frames, offset, Silence * loud);
        var spans = Begun(Split(WithoutShadows(Spans(path)), frames), frames);
        return
        [
            .. spans
                .Where(span => (span.To - span.From) * PitchTrack.Hop >= Shortest)
                .Select(span => new MelodyNote(
                    span.From * PitchTrack.Hop,
                    span.To * PitchTrack.Hop,
                    span.Key,
                    frames[span.From..span.To].Average(frame => Chance(frame, span.Key + offset))
                )),
        ];
    }

    // State 0 is silence, the others are semitones.
    private static int[] Path(List<PitchFrame> frames, double offset, double silence)
    {
        var states = Highest - Lowest + 2;
        var cost = new double[states];
        var from = new byte[frames.Count][];
        var chances = new double[states];
        for (var i = 0; i < frames.Count; i++)
        {
            Chances(frames[i], offset, silence, chances);
            var best = Array.IndexOf(cost, cost.Min());
            var (turn, back) = (cost[best] + Change, from[i] = new byte[states]);
            for (var state = 0; state < states; state++)
            {
                back[state] = (byte)(cost[state] <= turn ? state : best);
                cost[state] = Math.Min(cost[state], turn) - Math.Log(chances[state]);
            }
        }
        var path = new int[frames.Count];
        var at = Array.IndexOf(cost, cost.Min());
        for (var i = frames.Count - 1; i >= 0; i--)
        {
            path[i] = at == 0 ? -1 : Lowest + at - 1;
            at = from[i][at];
        }
        return path;
    }

    private static void Chances(PitchFrame frame, double offset, double silence, double[] chances)
    {
        Array.Fill(chances, Faint);
        if (frame.Power <= silence)
        {
            chances[0] = 1;
            return;
        }
        var voiced = 0.0;
        foreach (var (key, chance) in frame.Candidates)
        {
            voiced += chance;
            var nearest = (int)Math.Round(key - offset);
            for (var note = nearest - 1; note <= nearest + 1; note++)
                if (note is >= Lowest and <= Highest)
                    chances[note - Lowest + 1] += chance * Likeness(key - offset - note);
        }
        chances[0] += 0.3 * Math.Max(0, 1 - voiced);
    }

    private static double Likeness(double away) => Math.Exp(-0.5 * away * away / (Spread * Spread));

    private static double Chance(PitchFrame frame, double key) =>
        frame.Candidates.Where(item => Math.Abs(item.Key - key) < 0.6).Sum(item => (double)item.Chance);

    private static List<Span> Spans(int[] path)
    {
        var spans = new List<Span>();
        for (var i = 0; i < path.Length; )
        {
            var start = i;
            while (i < path.Length && path[i] == path[start])
                i++;
            if (path[start] >= 0)
                spans.Add(new(start, i, path[start]));
        }
        return spans;
    }

    // A rise of the spectrum within a note that stands out from the take's usual beginnings of notes begins another.
    private static List<Span> Split(List<Span> spans, List<PitchFrame> frames)
    {
        var usual = spans.Select(span => Greatest(frames, span.From - 4, span.From + 8)).Order().ToList();
        if (usual.Count == 0)
            return spans;
        var middle = usual[usual.Count / 2];
        var (apart, near) = ((int)(0.07 / PitchTrack.Hop), (int)(0.03 / PitchTrack.Hop));
        var split = new List<Span>();
        foreach (var span in spans)
        {
            var start = span.From;
            for (var i = span.From + apart; i < span.To - (apart / 2); i++)
            {
                if (i - start < apart || frames[i].Flux < Greatest(frames, i - near, i + near + 1))
                    continue;
                if (frames[i].Flux / middle * Math.Log2(PowerRise(frames, i)) < Anew || !Sinks(frames, start, i))
                    continue;
                split.Add(new(start, i, span.Key));
                start = i;
            }
            split.Add(new(start, span.To, span.Key));
        }
        return split;
    }

    // Before a note begins anew the one before sinks; a note that still swells since it began does not.
    private static bool Sinks(List<PitchFrame> frames, int start, int at)
    {
        var (most, sunk) = (0f, 1f);
        for (var i = start; i <= at; i++)
        {
            most = Math.Max(most, frames[i].Power);
            if (i >= at - 12)
                sunk = Math.Min(sunk, frames[i].Power / Math.Max(most, 1e-12f));
        }
        return sunk <= Sunk;
    }

    // The most in the 60 ms from a frame on over the least in the 60 ms up to it.
    private static double PowerRise(List<PitchFrame> frames, int at)
    {
        var (least, most) = (float.MaxValue, 0f);
        for (var i = Math.Max(0, at - 12); i <= at; i++)
            least = Math.Min(least, frames[i].Power);
        for (var i = at; i < Math.Min(frames.Count, at + 13); i++)
            most = Math.Max(most, frames[i].Power);
        return most / Math.Max(least, 1e-12f);
    }

    // While a note dies away under the next, their common period is heard as a note far below both; it is short.
    private static List<Span> WithoutShadows(List<Span> spans)
    {
        var kept = new List<Span>();
        for (var i = 0; i < spans.Count; i++)
        {
            var (span, isShort) = (spans[i], (spans[i].To - spans[i].From) * PitchTrack.Hop < ShadowSeconds);
            var isBelow =
                i > 0 && i + 1 < spans.Count && Math.Min(spans[i - 1].Key, spans[i + 1].Key) - span.Key >= ShadowBelow;
            if (isShort && isBelow)
                continue;
            kept.Add(span);
        }
        return kept;
    }

    // A note is clear only when the one before has died away: it begins where the spectrum rose before.
    private static List<Span> Begun(List<Span> spans, List<PitchFrame> frames)
    {
        var begun = new List<Span>();
        foreach (var span in spans)
        {
            var earliest = Math.Max(
                span.From - (int)(0.11 / PitchTrack.Hop),
                begun.Count == 0 ? 0 : begun[^1].From + (int)(Shortest / PitchTrack.Hop)
            );
            var (from, most) = (Math.Max(earliest, span.From - Usual), 0.0);
            for (var i = earliest; i < Math.Min(frames.Count, span.From + 3); i++)
            {
                var away = (double)(span.From - i - Usual) / Around;
                var rise = frames[i].Flux * Math.Exp(-0.5 * away * away);
                if (rise > most)
                    (from, most) = (i, rise);
            }
            from = Math.Max(earliest, from - FluxLate);
            if (begun.Count > 0 && begun[^1].To > from)
                begun[^1] = begun[^1] with { To = from };
            begun.Add(span with { From = from });
        }
        return begun;
    }

    private static float Greatest(List<PitchFrame> frames, int from, int to)
    {
        var greatest = 0f;
        for (var i = Math.Max(0, from); i < Math.Min(frames.Count, to); i++)
            greatest = Math.Max(greatest, frames[i].Flux);
        return greatest;
    }
}
