using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Language;

namespace DrumPrint.Session;

/// <summary>Finds the channel of a file that a track names.</summary>
internal static class ChannelChoice
{
    /// <summary>The channel, from 0; null where the track is the whole file.</summary>
    /// <param name="track">The track.</param>
    /// <param name="reader">Its file, open.</param>
    /// <exception cref="AudioFileException">The file has no such channel, or more than two and the track names none.</exception>
    public static int? Of(Track track, AudioReader reader)
    {
        var channels = reader.Info.Channels;
        if (track.Channel is not { } asked)
        {
            return channels <= 2
                ? null
                : throw new AudioFileException(track.File, FormattableString.Invariant($"has {channels} channels; a track is mono or stereo. Say which channel it is, such as \"channel\": 1{Known(ChannelNames.Of(reader))}."));
        }

        if (asked.Name is not { } name)
        {
            return asked.Number <= channels
                ? asked.Number - 1
                : throw new AudioFileException(track.File, FormattableString.Invariant($"has {Words.Count(channels, "channel")}, so there is no channel {asked.Number}. Nearest: {channels}."));
        }

        var names = ChannelNames.Of(reader);
        var found = Enumerable.Range(0, channels).Where(c => names[c].Equals(name, StringComparison.OrdinalIgnoreCase)).ToList();
        return found switch
        {
            [var only] => only,
            [] when names.All(n => n.Length == 0) => throw new AudioFileException(track.File, FormattableString.Invariant($"gives its {Words.Count(channels, "channel")} no names, so '{Show.Name(name)}' cannot be found. Give the channel's number, from 1.")),
            [] => throw new AudioFileException(track.File, $"has no channel called '{Show.Name(name)}'.{(Nearest.Word(name, names.Where(n => n.Length > 0)) is { } near ? $" Did you mean '{Show.Name(near)}'?" : $" It has{Known(names)[1..]}.")}"),
            _ => throw new AudioFileException(track.File, $"calls channels {Show.List([.. found.Select(c => FormattableString.Invariant($"{c + 1}"))])} '{Show.Name(name)}'. Give the number of the one you mean."),
        };
    }

    // Begins with a colon's place, so that it ends a sentence or says nothing.
    private static string Known(IReadOnlyList<string> names) => names.All(n => n.Length == 0)
        ? ""
        : $": {Show.Some([.. names.Select((n, c) => FormattableString.Invariant($"{c + 1}{(n.Length > 0 ? $" is '{Show.Name(n)}'" : " has no name")}"))])}";
}
