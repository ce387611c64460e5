using System.Collections.Concurrent;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>The raw files of a session, read from any frame on.</summary>
/// <remarks>A file at the session's rate is read where it lies. One at another rate is brought to it once and kept in memory.</remarks>
internal sealed class Recordings : IDisposable
{
    private readonly ConcurrentDictionary<string, Lazy<ISampleWindows>> _files = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Lazy<double[][]>> _converted = new(StringComparer.Ordinal);

    /// <summary>Opens some channels of a file.</summary>
    /// <exception cref="AudioFileException">It cannot be read.</exception>
    public ITrackSource Open(TrackInput input, IReadOnlyList<int> channels)
    {
        if (!input.IsConverted)
        {
            var file = _files.GetOrAdd(input.Splice?.Key ?? input.Path, _ => new Lazy<ISampleWindows>(() => input.Splice is null ? SampleWindows.Open(input.Path) : new SplicedWindows(input.Splice))).Value;
            var skipped = input.Track.SkippedFrames(input.SessionRateHz);
            return new AnywhereSource(channels.Count, input.Frames, input.Info.Path, (c, frame, into) => file.Read(channels[c], frame + skipped, into));
        }

        var key = FormattableString.Invariant($"{input.Recording.Path}\n{input.Track.LatencyMs}\n{string.Join(' ', channels)}");
        var sound = _converted.GetOrAdd(key, _ => new Lazy<double[][]>(() => Convert(input, channels))).Value;
        return new AnywhereSource(channels.Count, input.Frames, input.Info.Path, (c, frame, into) => Copy(sound[c], frame, into));
    }

    public void Dispose()
    {
        foreach (var file in _files.Values.Where(f => f.IsValueCreated))
        {
            file.Value.Dispose();
        }
    }

    private static double[][] Convert(TrackInput input, IReadOnlyList<int> channels)
    {
        using var source = input.Open(AudioHashes.None, channels);
        double[][] sound = [.. channels.Select(_ => new double[source.Frames])];
        for (long frame = 0; frame < source.Frames; frame += 1 << 16)
        {
            source.Read(new AudioBlock(sound, (int)frame, (int)Math.Min(1 << 16, source.Frames - frame)));
        }

        return sound;
    }

    private static void Copy(double[] sound, long frame, Span<double> into)
    {
        var there = (int)Math.Clamp(sound.Length - frame, 0, into.Length);
        sound.AsSpan((int)Math.Min(frame, sound.Length), there).CopyTo(into);
        into[there..].Clear();
    }
}
