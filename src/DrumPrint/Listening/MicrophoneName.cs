using System.Globalization;
using System.Text;
using DrumPrint.Audio;

namespace DrumPrint.Listening;

/// <summary>What the name of a file says of its microphone.</summary>
/// <param name="Role">What it is for.</param>
/// <param name="Standing">Where it stands.</param>
/// <param name="Side">Left or right.</param>
/// <param name="Number">Which of several, as of toms; 0 when it does not say.</param>
/// <param name="Take">Which take; 0 when it does not say.</param>
/// <param name="Stem">What is left without side and take: files with the same stem belong together.</param>
internal sealed record MicrophoneName(Role Role, Standing Standing, Side Side, int Number, int Take, string Stem)
{
    private static readonly HashSet<string> TakeWords = ["take", "tk", "t", "alt", "prise", "toma", "v"];

    // Words of a place that are drums only where nothing else in the name is.
    private static readonly HashSet<string> Weak = ["kit", "mono", "center", "centre", "shell", "low", "mix", "bass", "ref", "hall", "mid", "tb", "cc", "gc", "cr", "rt", "rd", "t", "caisse", "piece", "der", "dir", "front", "crush", "trash", "dirty"];

    /// <summary>Whether a person says so, whatever the file is called.</summary>
    public bool IsTold { get; init; }

    /// <summary>Reads the name of a file, with or without folder and ending.</summary>
    public static MicrophoneName Of(string path)
    {
        var words = Split(Path.GetFileNameWithoutExtension(path));
        var (role, isStrong) = (Role.Unknown, false);
        var (standing, side, number, take) = (Standing.Unknown, Side.None, 0, 0);
        var stem = new List<string>();
        for (var i = 0; i < words.Count; i++)
        {
            var word = words[i];
            var used = false;
            for (var length = Math.Min(3, words.Count - i); length >= 1 && !used; length--)
            {
                var joined = string.Concat(words.Skip(i).Take(length));
                if (NameWords.Roles.TryGetValue(joined, out var found) || IsTom(words, i, length, role, out found))
                {
                    used = true;
                    var strong = !Weak.Contains(joined);
                    if (role == Role.Unknown || (strong && !isStrong) || (strong && role is Role.RackTom && found is Role.FloorTom))
                    {
                        (role, isStrong) = (found, strong);
                    }

                    standing = standing == Standing.Unknown && NameWords.Standings.TryGetValue(words[i + length - 1], out var where) ? where : standing;
                    stem.AddRange(words.Skip(i).Take(length));
                    i += length - 1;
                }
            }

            if (used)
            {
                continue;
            }

            if (i + 1 < words.Count && TakeWords.Contains(word) && int.TryParse(words[i + 1], CultureInfo.InvariantCulture, out var takeNumber) && (role != Role.Unknown || word.Length > 1))
            {
                take = takeNumber;
                i++;
            }
            else if (NameWords.Sides.TryGetValue(word, out var at) && side == Side.None && (i > 0 || words.Count == 1))
            {
                side = at;
            }
            else if (NameWords.Standings.TryGetValue(word, out var place) || (role != Role.Unknown && NameWords.Letters.TryGetValue(word, out place)))
            {
                standing = standing == Standing.Unknown ? place : standing;
                stem.Add(word);
            }
            else if (int.TryParse(word, CultureInfo.InvariantCulture, out var n))
            {
                // A number in front is an order of files; one behind tells two of a kind apart.
                number = i > 0 && role != Role.Unknown ? n : number;
                if (i > 0)
                {
                    stem.Add(word);
                }
            }
            else
            {
                stem.Add(word);
            }
        }

        return new MicrophoneName(role, standing, side, number, take, string.Join(' ', stem));
    }

    // Words end where letters meet digits, small letters meet capitals, and at everything else; accents go.
    internal static List<string> Split(string name)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        var last = ' ';
        var text = Plain(name);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            var next = i + 1 < text.Length ? text[i + 1] : ' ';
            var ends = !char.IsLetterOrDigit(c)
                || (char.IsDigit(c) != char.IsDigit(last))
                || (char.IsUpper(c) && (char.IsLower(last) || (char.IsUpper(last) && char.IsLower(next) && i + 2 < text.Length && char.IsLower(text[i + 2]))));
            if (ends && word.Length > 0)
            {
                Add(word.ToString());
                word.Clear();
            }

            if (char.IsLetterOrDigit(c))
            {
                word.Append(c);
            }

            last = c;
        }

        if (word.Length > 0)
        {
            Add(word.ToString());
        }

        return words;

        // OHL and RoomR, snrtop and kickin are two words in one.
        void Add(string raw)
        {
            var small = raw.ToLowerInvariant();
            if (IsKnown(small) || small.Length < 3)
            {
                words.Add(small);
                return;
            }

            for (var cut = small.Length - 1; cut >= 2; cut--)
            {
                var (head, tail) = (small[..cut], small[cut..]);
                if (NameWords.Roles.ContainsKey(head) && (NameWords.Sides.ContainsKey(tail) || NameWords.Letters.ContainsKey(tail) || NameWords.Standings.ContainsKey(tail) || NameWords.Roles.ContainsKey(tail)))
                {
                    words.Add(head);
                    words.Add(tail);
                    return;
                }
            }

            words.Add(small);
        }
    }

    // T1 is a tom where nothing before it is a drum; behind one it is a take.
    private static bool IsTom(List<string> words, int at, int length, Role role, out Role found)
    {
        found = Role.RackTom;
        return length == 1 && role == Role.Unknown && words[at] == "t" && at + 1 < words.Count && words[at + 1].Length == 1 && char.IsDigit(words[at + 1][0]);
    }

    private static bool IsKnown(string word) => NameWords.Roles.ContainsKey(word) || NameWords.Standings.ContainsKey(word) || NameWords.Sides.ContainsKey(word);

    private static string Plain(string name) => Accents.Without(name.Replace("ß", "ss", StringComparison.Ordinal).Replace("ø", "o", StringComparison.Ordinal));
}
