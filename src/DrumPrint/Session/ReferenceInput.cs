using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Session;

/// <summary>Finds and checks the song's own mix. No print asks for it.</summary>
internal static class ReferenceInput
{
    private const int MostChannels = 2;

    /// <summary>Opens the mix of a chain that names one.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <exception cref="AudioFileException">It may not be read, is not there or does not fit.</exception>
    public static TrackInput Open(Chain chain, ReadPolicy reading)
    {
        var reference = chain.Reference!;
        var reach = new SessionReach(reading, chain.Folder);
        if (reach.Outside(reference.File) is { } outside)
        {
            throw new AudioFileException(Show.Name(reference.File), $"is not read: {reach.Advice(outside)}");
        }

        var path = Path.Combine(chain.Folder, reference.File);
        if (!Path.Exists(path))
        {
            path = NearbyFile.WithOtherAccents(path) ?? throw new AudioFileException(reference.File, "there is no such file." + NearbyFile.Hint(path));
        }

        using var reader = AudioReader.Open(path, AudioHashes.None);
        var info = reader.Info;
        if (Problem(info) is { } problem)
        {
            throw new AudioFileException(reference.File, problem);
        }

        if (info.SampleRate != chain.Song.RateHz && !reference.Convert)
        {
            throw new AudioFileException(
                reference.File,
                $"is at {info.SampleRate} Hz, the session at {chain.Song.RateHz} Hz. Bring the mix at {chain.Song.RateHz} Hz, or add \"convert\": true to the reference to have it resampled.");
        }

        return new TrackInput(reference, path, info, chain.Song.RateHz);
    }

    /// <summary>What is wrong with a mix whatever the session's rate; null for nothing.</summary>
    public static string? Problem(AudioFileInfo info) => info switch
    {
        { Channels: > MostChannels } => FormattableString.Invariant($"has {info.Channels} channels; the song's own mix is mono or stereo."),
        { Frames: 0 } => "holds no samples.",
        { SampleRate: < RateConverter.LowestHz or > RateConverter.HighestHz } => $"is at {info.SampleRate} Hz; files from {RateConverter.LowestHz} to {RateConverter.HighestHz} Hz can be used.",
        _ => null,
    };
}
