using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Words;

public class LessonTextTests
{
    private static readonly Break Played = SampleBreaks.Small;

    [Fact]
    public void A_person_s_words_stand_instead_of_the_program_s()
    {
        var text = LessonText.Empty.With(Played, 2, "Let the thumb fall.");
        Over(text, Played)[1].In(WordForm.Long).Should().Be("Let the thumb fall.");
        Over(text, Played)[1].State.Should().Be(EditState.Fits);
        Over(text, Played)[0].State.Should().Be(EditState.None);
        text.With(Played, 2, "  ").Edits.Should().BeEmpty();
        text.With(Played, 2, "Other words.").Edits.Should().ContainSingle();
    }

    [Fact]
    public void A_change_elsewhere_leaves_them_a_change_of_their_notes_marks_them()
    {
        var text = LessonText.Empty.With(Played, 1, "First words.");
        Over(text, WithoutFirstNoteOf(Played.Bars.Length - 1))[0].State.Should().Be(EditState.Fits);
        var under = Over(text, WithoutFirstNoteOf(1))[0];
        under.State.Should().Be(EditState.NotesChanged);
        under.In(WordForm.Long).Should().Be("First words.");
    }

    [Fact]
    public void They_go_with_their_notes_and_are_kept_where_those_are_gone()
    {
        var phrases = PhraseWords.Of(Played);
        var text = LessonText.Empty.With(Played, phrases[^1].Number, "Last words.");
        var first = Played with { Bars = Played.Bars[..2] };
        Over(text, first).Should().OnlyContain(phrase => phrase.Edited == null);
        text.WithoutPhrase(first).Should().Equal(text.Edits);
        var later = Played with { Bars = [Played.Bars[1], Played.Bars[1], .. Played.Bars] };
        Over(text, later).Single(phrase => phrase.Edited != null).State.Should().Be(EditState.Fits);
    }

    [Fact]
    public void What_is_not_there_is_refused_in_a_line()
    {
        var none = () => LessonText.Empty.With(Played, 99, "words");
        none.Should().Throw<LessonException>().WithMessage("there is no phrase 99; *");
        var much = () => LessonText.Empty.With(Played, 1, new('a', LessonText.LongestText + 1));
        much.Should().Throw<LessonException>();
    }

    [Fact]
    public void Words_come_back_from_their_file() =>
        Gen.Select(Gen.Int[1, 500], Gen.String[Gen.Char['a', 'f'], 16, 16], Gen.String[Gen.Char[' ', '퟿'], 1, 60])
            .Select((phrase, notes, text) => new WordEdit(phrase, notes, text))
            .Array[0, 6]
            .Sample(edits => LessonTextJson.Read(LessonTextJson.Write(new([.. edits]))).Edits.SequenceEqual(edits));

    [Fact]
    public void What_is_said_around_the_phrases_comes_back_too()
    {
        var text = LessonText.Empty.Around("Learnt *by ear*.", "# {{title}}\n\n{{introduction}}\n");
        LessonTextJson.Read(LessonTextJson.Write(text)).Should().BeEquivalentTo(text);
        LessonTemplates.Own(text).Should().NotBeNull();
    }

    [Fact]
    public void Around_the_phrases_a_picture_or_a_place_that_is_none_is_refused_with_its_place()
    {
        var picture = () => LessonText.Empty.Around("One\n\n![me](me.png)", "");
        picture.Should().Throw<LessonException>().WithMessage("introduction:3:1: *--introduction*");
        var place = () => LessonText.Empty.Around("", "{{nothing}}");
        place.Should().Throw<LessonException>().WithMessage("template:1:1: *");
    }

    [Theory]
    [InlineData("{", "*not JSON*")]
    [InlineData("[1]", "*format*")]
    [InlineData("""{"format":"rollwright lesson text","version":7,"edits":[]}""", "version 7 is not 1*")]
    [InlineData("""{"format":"rollwright lesson text","version":1,"edits":[{"phrase":"one"}]}""", "edit 1:*")]
    public void A_file_that_is_wrong_says_where(string json, string message)
    {
        var reading = () => LessonTextJson.Read(json);
        reading.Should().Throw<LessonException>().WithMessage(message);
    }

    private static ImmutableArray<PhraseText> Over(LessonText text, Break played) =>
        text.Over(played, PhraseWords.Of(played));

    private static Break WithoutFirstNoteOf(int bar) =>
        Played with
        {
            Bars = Played.Bars.SetItem(bar, Played.Bars[bar] with { Strokes = Played.Bars[bar].Strokes[1..] }),
        };
}
