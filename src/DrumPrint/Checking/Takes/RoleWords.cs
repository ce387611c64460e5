using System.Text;

namespace DrumPrint.Checking.Takes;

/// <summary>Reads from a name what a microphone stands at. Where it is not sure it says so, and rules that need to know leave the track alone.</summary>
internal static class RoleWords
{
    private static readonly (Role Role, string[] Words)[] Names =
    [
        (Role.Overdub, ["cabasa", "clap", "claps", "perc", "percussion", "shaker", "tamb", "tambourine", "conga", "bongo", "cowbell", "click", "tempo", "guide", "loop"]),
        (Role.Overhead, ["oh", "ohl", "ohr", "overhead", "overheads", "ovh", "over"]),
        (Role.Room, ["room", "rooms", "amb", "ambience", "ambient", "hall", "far", "rm", "nearroom", "farroom"]),
        (Role.Kick, ["kick", "kik", "bd", "kd", "bassdrum", "kickin", "kickout", "kicksub"]),
        (Role.Snare, ["snare", "sn", "sd", "snr", "snaretop"]),
        (Role.Hat, ["hat", "hats", "hh", "hihat", "hihats"]),
        (Role.Tom, ["tom", "toms", "rack", "floor", "ft", "rt"]),
        (Role.Kit, ["front", "knee", "kit", "mono", "crotch", "drums"]),
    ];

    private static readonly string[] Under = ["bottom", "under", "btm", "bot", "below", "resonant"];

    public static Role Of(string name)
    {
        var words = Split(name);
        foreach (var (role, known) in Names)
        {
            if (words.Any(known.Contains))
            {
                var isUnder = words.Any(Under.Contains);
                return role == Role.Snare && isUnder ? Role.SnareUnder : role == Role.Tom && isUnder ? Role.TomUnder : role;
            }
        }

        return Role.Unknown;
    }

    /// <summary>Which side a name says: −1 left, 1 right, 0 neither.</summary>
    public static int Side(string name)
    {
        var words = Split(name);
        return words.Any(w => w is "left" or "l" || w is "ohl") ? -1 : words.Any(w => w is "right" or "r" || w is "ohr") ? 1 : 0;
    }

    /// <summary>The name without its side: what the two of a pair share.</summary>
    public static string WithoutSide(string name) =>
        string.Join(' ', Split(name).Where(w => w is not ("left" or "l" or "right" or "r")).Select(w => w is "ohl" or "ohr" ? "oh" : w));

    // Words end where letters do, and where a capital follows a small letter.
    private static List<string> Split(string name)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        for (var i = 0; i < name.Length; i++)
        {
            if (!char.IsLetter(name[i]) || (i > 0 && char.IsUpper(name[i]) && char.IsLower(name[i - 1])))
            {
                Take();
            }

            if (char.IsLetter(name[i]))
            {
                word.Append(char.ToLowerInvariant(name[i]));
            }
        }

        Take();
        return words;

        void Take()
        {
            if (word.Length > 0)
            {
                words.Add(word.ToString());
                word.Clear();
            }
        }
    }
}
