using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Rollwright.Library.Storage;

/// <summary>
/// Words as search compares them: small letters without accents, parted where no letter or digit is. The process runs without
/// cultures (InvariantGlobalization), and with it without Unicode's decompositions: the accented letters of Latin-1 and Latin
/// Extended-A stand here, as titles of European tunes have them.
/// </summary>
internal static class Folded
{
    private static readonly FrozenDictionary<char, string> Plain = new[]
    {
        ("a", "àáâãäåāăą"),
        ("c", "çćĉċč"),
        ("d", "ďđð"),
        ("e", "èéêëēĕėęě"),
        ("g", "ĝğġģ"),
        ("h", "ĥħ"),
        ("i", "ìíîïĩīĭįı"),
        ("j", "ĵ"),
        ("k", "ķ"),
        ("l", "ĺļľŀł"),
        ("n", "ñńņň"),
        ("o", "òóôõöøōŏő"),
        ("r", "ŕŗř"),
        ("s", "śŝşš"),
        ("t", "ţťŧ"),
        ("u", "ùúûüũūŭůűų"),
        ("w", "ŵ"),
        ("y", "ýÿŷ"),
        ("z", "źżž"),
        ("ss", "ß"),
        ("ae", "æ"),
        ("oe", "œ"),
        ("th", "þ"),
    }
        .SelectMany(row => row.Item2.Select(letter => KeyValuePair.Create(letter, row.Item1)))
        .ToFrozenDictionary();

    public static IReadOnlyList<string> Words(string text)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        foreach (var sign in text)
        {
            // An accent of its own, as decomposed text has it, and an apostrophe part no word.
            if (CharUnicodeInfo.GetUnicodeCategory(sign) == UnicodeCategory.NonSpacingMark || sign is '\'' or '’')
                continue;
            if (char.IsLetterOrDigit(sign))
            {
                var small = char.ToLowerInvariant(sign);
                word.Append(Plain.TryGetValue(small, out var plain) ? plain : $"{small}");
            }
            else if (word.Length > 0)
            {
                Add();
            }
        }
        if (word.Length > 0)
            Add();
        return words;

        void Add()
        {
            words.Add(word.ToString());
            word.Clear();
        }
    }

    public static string Text(params IEnumerable<string> texts) => string.Join(' ', texts.SelectMany(Words));
}
