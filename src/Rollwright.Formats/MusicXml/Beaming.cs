using Rollwright.Music.Metre;

namespace Rollwright.Formats.MusicXml;

/// <summary>Which short notes share a beam: those within <see cref="TimeSignature.BeamGroup"/>.</summary>
internal static class Beaming
{
    public static void Apply(List<Piece> pieces, TimeSignature time, Fraction offset)
    {
        var window = time.BeamGroup;
        var start = 0;
        while (start < pieces.Count)
        {
            var end = start + 1;
            while (end < pieces.Count && Joins(pieces[end - 1], pieces[end], window, offset))
                end++;
            if (end - start > 1)
                Beam(pieces, start, end);
            start = end;
        }
    }

    private static bool Joins(Piece before, Piece after, Fraction window, Fraction offset) =>
        Takes(before)
        && Takes(after)
        && ((before.At + offset) / window).Floor() == ((after.At + offset) / window).Floor();

    private static bool Takes(Piece piece) => !piece.IsRest && piece.Value.Beams > 0;

    private static void Beam(List<Piece> pieces, int start, int end)
    {
        for (var i = start; i < end; i++)
        {
            var own = pieces[i].Value.Beams;
            var before = i > start ? pieces[i - 1].Value.Beams : 0;
            var after = i + 1 < end ? pieces[i + 1].Value.Beams : 0;
            var beams = Enumerable
                .Range(1, own)
                .Select(level =>
                    before >= level && after >= level ? "continue"
                    : before >= level ? "end"
                    : after >= level ? "begin"
                    : before > 0 ? "backward hook"
                    : "forward hook"
                );
            pieces[i] = pieces[i] with { Beams = [.. beams] };
        }
    }
}
