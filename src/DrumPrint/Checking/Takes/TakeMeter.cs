using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Takes;

/// <summary>Measures a file in one pass.</summary>
internal static class TakeMeter
{
    private const int BlockFrames = 1 << 14;
    private const int PadBits = 256;

    /// <exception cref="AudioFileException">The file cannot be read to its end.</exception>
    public static TakeFigures Measure(string path, bool hashed, Action<double> progress, CancellationToken cancel)
    {
        using var reader = AudioReader.Open(path, AudioHashes.Likeness | (hashed ? AudioHashes.Samples : AudioHashes.None));
        var info = reader.Info;
        var meters = Enumerable.Range(0, info.Channels).Select(_ => new ChannelMeter(info.SampleRate)).ToArray();
        var channels = meters.Select(_ => new double[BlockFrames]).ToArray();
        var whole = new AudioBlock(channels, 0, BlockFrames);
        var middle = new double[BlockFrames];
        var hits = new HitFinder(Math.Max(1000, info.SampleRate));
        var truePeak = new TruePeakMeter(new AudioFormat(info.SampleRate, info.Channels));
        var slices = new MsPowers(info.SampleRate, info.Frames);
        var (padded, full) = (0L, 0L);
        var (left, right, both, side) = (0.0, 0.0, 0.0, 0.0);
        var isPcm24 = info.Encoding == SampleEncoding.Pcm24;
        for (long frame = 0; reader.Read(whole) is var frames and > 0; frame += frames)
        {
            cancel.ThrowIfCancellationRequested();
            var block = whole.Slice(0, frames);
            for (var c = 0; c < meters.Length; c++)
            {
                if (NotFinite.IndexIn(block[c]) is >= 0 and var bad)
                {
                    throw new AudioFileException(path, FormattableString.Invariant($"frame {frame + bad} of channel {c + 1} is not a number; the program that wrote the file went wrong there."));
                }

                meters[c].Add(block[c]);
                if (isPcm24)
                {
                    CountPadded(block[c], ref padded, ref full);
                }
            }

            slices.Add(block);
            truePeak.Add(block);
            Sum(block, middle);
            hits.Add(middle.AsSpan(0, frames));
            if (info.Channels == 2)
            {
                var l = block[0];
                var r = block[1];
                for (var n = 0; n < frames; n++)
                {
                    left += l[n] * l[n];
                    right += r[n] * r[n];
                    both += l[n] * r[n];
                    side = Math.Max(side, Math.Abs(l[n] - r[n]));
                }
            }

            progress((double)(frame + frames) / info.Frames);
        }

        return new TakeFigures
        {
            RateHz = info.SampleRate,
            Frames = info.Frames,
            Channels = [.. meters.Select(m => m.Read())],
            MsPower = slices.Read(),
            Hits = hits.Found(),
            TruePeakDb = truePeak.PeakDb,
            Likeness = reader.Likeness!.Value,
            Sha256 = hashed ? reader.AudioSha256 : null,
            PaddedShare = full > 0 ? (double)padded / full : 0,
            Sides = (left, right, both),
            SidePeak = side,
        };
    }

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
