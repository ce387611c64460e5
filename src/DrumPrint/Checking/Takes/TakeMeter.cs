using System.IO.Hashing;
using System.Runtime.InteropServices;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Takes;

/// <summary>Measures what is used of a file, in one pass.</summary>
internal sealed class TakeMeter
{
    private const int BlockFrames = 1 << 14;
    private const int PadBits = 256;

    private readonly AudioFileInfo _info;
    private readonly int[] _channels;
    private readonly bool _isPart;
    private readonly long _skipped;
    private readonly ChannelMeter[] _meters;
    private readonly double[] _middle = new double[BlockFrames];
    private readonly double[][] _used;
    private readonly HitFinder _hits;
    private readonly TruePeakMeter _truePeak;
    private readonly MsPowers _slices;
    private readonly XxHash128? _likeness;
    private long _padded;
    private long _full;
    private double _left;
    private double _right;
    private double _both;
    private double _side;

    private TakeMeter(AudioFileInfo info, int? channel, long skipped)
    {
        (_info, _skipped) = (info, Math.Min(skipped, info.Frames));
        _isPart = channel is not null;
        _channels = channel is { } one ? [one] : [.. Enumerable.Range(0, info.Channels)];
        _meters = [.. _channels.Select(_ => new ChannelMeter(info.SampleRate))];
        _used = new double[_channels.Length][];
        _hits = new HitFinder(Math.Max(1000, info.SampleRate));
        _truePeak = new TruePeakMeter(new AudioFormat(info.SampleRate, _channels.Length));
        _slices = new MsPowers(info.SampleRate, info.Frames - _skipped);
        _likeness = _isPart ? new XxHash128() : null;
    }

    /// <summary>Measures all or some channels of a file.</summary>
    /// <param name="open">Opens the recording, hashing what it is told to.</param>
    /// <param name="parts">What is measured: a channel from 0, or null for all of the file, and frames passed over at the start.</param>
    /// <param name="hashed">Whether the hash of its samples is taken.</param>
    /// <param name="progress">Told the part done.</param>
    /// <param name="cancel">Stops the pass.</param>
    /// <exception cref="AudioFileException">The file cannot be read to its end.</exception>
    public static IReadOnlyList<TakeFigures> Measure(Func<AudioHashes, AudioReader> open, IReadOnlyList<(int? Channel, long Skipped)> parts, bool hashed, Action<double> progress, CancellationToken cancel)
    {
        using var reader = open(AudioHashes.Likeness | (hashed ? AudioHashes.Samples : AudioHashes.None));
        var meters = parts.Select(p => new TakeMeter(reader.Info, p.Channel, p.Skipped)).ToList();
        int[] used = [.. meters.SelectMany(m => m._channels).Distinct().Order()];
        var channels = used.Select(_ => new double[BlockFrames]).ToArray();
        for (long frame = 0; reader.Read(new AudioBlock(channels, 0, BlockFrames), used) is var frames and > 0; frame += frames)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var meter in meters)
            {
                meter.Add(used, channels, frame, frames);
            }

            progress((double)(frame + frames) / reader.Info.Frames);
        }

        return [.. meters.Select(m => m.Read(reader.Likeness!.Value, hashed ? reader.AudioSha256 : null))];
    }

    private void Add(int[] used, double[][] channels, long frame, int frames)
    {
        var over = (int)Math.Clamp(_skipped - frame, 0, frames);
        for (var c = 0; c < _used.Length; c++)
        {
            _used[c] = channels[Array.IndexOf(used, _channels[c])];
        }

        if (over < frames)
        {
            Add(new AudioBlock(_used, over, frames - over), frame + over);
        }
    }

    private void Add(AudioBlock block, long frame)
    {
        for (var c = 0; c < _meters.Length; c++)
        {
            if (NotFinite.IndexIn(block[c]) is >= 0 and var bad)
            {
                throw new AudioFileException(_info.Path, FormattableString.Invariant($"frame {frame + bad} of channel {_channels[c] + 1} is not a number; the program that wrote the file went wrong there."));
            }

            _meters[c].Add(block[c]);
            if (_info.Encoding == SampleEncoding.Pcm24)
            {
                CountPadded(block[c], ref _padded, ref _full);
            }
        }

        _likeness?.Append(MemoryMarshal.AsBytes(block[0]));
        _slices.Add(block);
        _truePeak.Add(block);
        Sum(block, _middle);
        _hits.Add(_middle.AsSpan(0, block.Frames));
        if (_channels.Length == 2)
        {
            var l = block[0];
            var r = block[1];
            for (var n = 0; n < block.Frames; n++)
            {
                _left += l[n] * l[n];
                _right += r[n] * r[n];
                _both += l[n] * r[n];
                _side = Math.Max(_side, Math.Abs(l[n] - r[n]));
            }
        }
    }

    private TakeFigures Read(UInt128 likeness, string? sha256) => new()
    {
        RateHz = _info.SampleRate,
        Frames = _info.Frames - _skipped,
        Channels = [.. _meters.Select(m => m.Read())],
        MsPower = _slices.Read(),
        Hits = _hits.Found(),
        TruePeakDb = _truePeak.PeakDb,
        Likeness = _likeness?.GetCurrentHashAsUInt128() ?? likeness,
        Sha256 = sha256,
        PaddedShare = _full > 0 ? (double)_padded / _full : 0,
        Sides = (_left, _right, _both),
        SidePeak = _side,
    };

    private static void CountPadded(ReadOnlySpan<double> samples, ref long padded, ref long full)
    {
        foreach (var sample in samples)
        {
            var word = (int)(sample * (1 << 23));
            if (word != 0)
            {
                full++;
                padded += word % PadBits == 0 ? 1 : 0;
            }
        }
    }

    private static void Sum(AudioBlock block, double[] middle)
    {
        block[0].CopyTo(middle);
        for (var c = 1; c < block.Channels; c++)
        {
            for (var n = 0; n < block.Frames; n++)
            {
                middle[n] += block[c][n];
            }
        }
    }
}
