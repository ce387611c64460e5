using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>The song's own mix, open: two sides from any frame of the song on.</summary>
internal sealed class PartnerSound : IDisposable
{
    private const int PartFrames = 1 << 14;

    private readonly TrackInput _input;
    private readonly ChannelReading _read;
    private readonly IDisposable? _file;
    private readonly AnywhereSource _source;
    private readonly double[][] _sides;
    private readonly double[][] _own;
    private readonly long _wait;
    private long _next = -1;

    private PartnerSound(TrackInput input, ChannelReading read, IDisposable? file, long wait, int blockFrames)
    {
        (_input, _read, _file, _wait) = (input, read, file, wait);
        _source = Source();
        _sides = [new double[blockFrames], new double[blockFrames]];
        _own = _source.Channels == 1 ? [_sides[0]] : _sides;
    }

    /// <summary>Opens it. One at another rate is brought to the session's and kept in memory, which takes a while.</summary>
    /// <param name="chain">A chain that names one.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="blockFrames">Frames that are read at a time.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="AudioFileException">It may not be read, is not there or does not fit.</exception>
    public static PartnerSound Open(Chain chain, ReadPolicy reading, int blockFrames, CancellationToken cancel)
    {
        var input = ReferenceInput.Open(chain, reading);
        var rate = chain.Song.RateHz;
        var wait = input.Track.Wait(rate, chain.Song.TemperatureC).ToFrames(rate, chain.Song.TemperatureC);
        if (input.IsConverted)
        {
            var sound = Converted(input, cancel);
            return new PartnerSound(input, (c, frame, into) => Copy(sound[c], frame, into), null, wait, blockFrames);
        }

        var file = SampleWindows.Open(input.Path);
        var skipped = input.Track.SkippedFrames(rate);
        return new PartnerSound(input, (c, frame, into) => file.Read(c, frame + skipped, into), file, wait, blockFrames);
    }

    /// <summary>Reads a block of both sides; mono is on both. What goes on from the block read last is read ahead, so any other begins anew.</summary>
    /// <param name="frame">Frame of the song.</param>
    public AudioBlock Read(long frame)
    {
        var frames = _sides[0].Length;
        var lead = (int)Math.Clamp(_wait - frame, 0, frames);
        _sides[0].AsSpan(0, lead).Clear();
        _sides[^1].AsSpan(0, lead).Clear();
        if (lead < frames)
        {
            if (_next != frame || lead > 0)
            {
                _source.Start(frame + lead - _wait);
            }

            _source.Read(new AudioBlock(_own, lead, frames - lead));
            if (_source.Channels == 1)
            {
                _sides[0].CopyTo(_sides[1], 0);
            }
        }

        _next = frame + frames;
        return new AudioBlock(_sides, 0, frames);
    }

    /// <summary>How loud it is over the song, for a picture.</summary>
    /// <param name="songFrames">Length of the song.</param>
    /// <param name="columns">Into how many parts the song is cut.</param>
    /// <param name="cancel">Stops between parts.</param>
    public float[] Outline(long songFrames, int columns, CancellationToken cancel)
    {
        var source = Source();
        var peaks = new float[columns];
        double[][] part = [.. Enumerable.Range(0, source.Channels).Select(_ => new double[PartFrames])];
        for (long at = 0; at < source.Frames && at + _wait < songFrames; at += PartFrames)
        {
            cancel.ThrowIfCancellationRequested();
            source.Read(new AudioBlock(part, 0, PartFrames));
            for (var n = 0; n < PartFrames && at + n + _wait < songFrames; n++)
            {
                ref var peak = ref peaks[(int)((at + n + _wait) * columns / songFrames)];
                foreach (var side in part)
                {
                    peak = Math.Max(peak, (float)Math.Abs(side[n]));
                }
            }
        }

        return peaks;
    }

    public void Dispose() => _file?.Dispose();

    private AnywhereSource Source() => new(_input.Channels, _input.Frames, _input.Info.Path, _read);

    private static float[][] Converted(TrackInput input, CancellationToken cancel)
    {
        using var source = input.Open(AudioHashes.None);
        float[][] sound = [.. Enumerable.Range(0, source.Channels).Select(_ => new float[source.Frames])];
        double[][] part = [.. sound.Select(_ => new double[PartFrames])];
        for (long frame = 0; frame < source.Frames; frame += PartFrames)
        {
            cancel.ThrowIfCancellationRequested();
            var frames = (int)Math.Min(PartFrames, source.Frames - frame);
            source.Read(new AudioBlock(part, 0, frames));
            for (var c = 0; c < sound.Length; c++)
            {
                for (var n = 0; n < frames; n++)
                {
                    sound[c][frame + n] = (float)part[c][n];
                }
            }
        }

        return sound;
    }

    private static void Copy(float[] sound, long frame, Span<double> into)
    {
        var there = (int)Math.Clamp(sound.Length - frame, 0, into.Length);
        for (var n = 0; n < there; n++)
        {
            into[n] = sound[frame + n];
        }

        into[there..].Clear();
    }
}
