using System.Globalization;
using System.Text;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>What tracks and the song are called in a chain that is begun.</summary>
internal static class Naming
{
    /// <summary>Buses of a chain that is begun; no track is called so.</summary>
    private static readonly HashSet<string> Buses = new(StringComparer.Ordinal)
    {
        "kick", "snare", "snare loose", "toms", "hat", "ride", "cymbals", "overheads", "near room", "far room", "room", "crushed room", "impact", "space", "percussion", "kit",
    };

    public static IReadOnlyList<Guess> Named(IReadOnlyList<Guess> guesses)
    {
        var taken = new HashSet<string>(Buses, StringComparer.Ordinal);
        var named = new List<Guess>();
        foreach (var guess in guesses)
        {
            var plain = Plain(guess);
            var name = Buses.Contains(plain) ? plain + " mic" : plain;
            for (var n = 2; !taken.Add(name); n++)
            {
                name = string.Create(CultureInfo.InvariantCulture, $"{plain} {n}");
            }

            named.Add(guess with { Track = name });
        }

        return named;
    }

    /// <summary>The song's code: letters and digits of its title.</summary>
    public static string Code(string title)
    {
        var code = new StringBuilder();
        var startsWord = true;
        foreach (var c in Audio.Accents.Without(title))
        {
            if (char.IsAsciiLetterOrDigit(c))
            {
                code.Append(startsWord ? char.ToUpperInvariant(c) : c);
            }

            startsWord = !char.IsAsciiLetterOrDigit(c);
        }

        return code.Length == 0 ? "Song" : code.Length > LongestCode ? code.ToString(0, LongestCode) : code.ToString();
    }

    private const int LongestCode = 24;

    private static string Plain(Guess guess)
    {
        var place = guess.Place;
        var side = guess.Places.Count > 1 ? "" : place.Side switch { Side.Left => " left", Side.Right => " right", _ => "" };
        var standing = place.Standing switch
        {
            Standing.Unknown => "",
            var s => " " + s.ToString().ToLowerInvariant(),
        };
        return place.Role switch
        {
            Role.Overhead => "overhead" + side,
            Role.Room => (place.Standing == Standing.Near ? "near room" : place.Standing == Standing.Far ? "far room" : "room") + side,
            Role.Kit or Role.Percussion => (guess.File.Name.Stem.Length > 0 ? guess.File.Name.Stem : "kit") + side,
            _ => place.Drum + standing + side,
        };
    }
}
