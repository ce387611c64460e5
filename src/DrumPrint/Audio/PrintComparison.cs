using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Audio;

/// <summary>Holds two prints against each other, sample by sample.</summary>
internal static class PrintComparison
{
    private const int BlockFrames = 1 << 14;

    /// <summary>Where they first differ and by how much at most.</summary>
    /// <returns>No frame and no level when the samples are the same; a frame and no level when the formats differ.</returns>
    public static (long? FirstDifference, double? ResidualDbfs) Compare(string path, string otherPath)
    {
        using var one = AudioReader.Open(path, AudioHashes.None);
        using var other = AudioReader.Open(otherPath, AudioHashes.None);
        if (one.Info.Channels != other.Info.Channels || one.Info.SampleRate != other.Info.SampleRate)
        {
            return (0, null);
        }

        var a = Block(one.Info.Channels);
        var b = Block(one.Info.Channels);
        long? first = null;
        var peak = 0.0;
        for (var frame = 0L; frame < Math.Max(one.Info.Frames, other.Info.Frames); frame += BlockFrames)
        {
            one.Read(new AudioBlock(a, 0, BlockFrames));
            other.Read(new AudioBlock(b, 0, BlockFrames));
            var place = BlockFrames;
            for (var channel = 0; channel < a.Length; channel++)
            {
                place = Math.Min(place, FirstDifference(a[channel], b[channel]));
                peak = Math.Max(peak, Largest(a[channel], b[channel]));
            }

            first ??= place < BlockFrames ? frame + place : null;
        }

        if (one.Info.Frames != other.Info.Frames)
        {
            first ??= Math.Min(one.Info.Frames, other.Info.Frames);
        }

        return (first, first is null ? null : Decibels.FromGain(peak));
    }

    /// <summary>Whether two prints hold the same samples up to where the shorter one ends.</summary>
    public static bool IsSameWhileBothLast(string path, string otherPath)
    {
        using var one = AudioReader.Open(path);
        using var other = AudioReader.Open(otherPath);
        if (one.Info.Channels != other.Info.Channels || one.Info.SampleRate != other.Info.SampleRate || one.Info.Encoding != other.Info.Encoding)
        {
            return false;
        }

        var a = Block(one.Info.Channels);
        var b = Block(one.Info.Channels);
        var end = Math.Min(one.Info.Frames, other.Info.Frames);
        for (var frame = 0L; frame < end; frame += BlockFrames)
        {
            var frames = (int)Math.Min(BlockFrames, end - frame);
            one.Read(new AudioBlock(a, 0, frames));
            other.Read(new AudioBlock(b, 0, frames));
            if (a.Zip(b).Any(c => !c.First.AsSpan(0, frames).SequenceEqual(c.Second.AsSpan(0, frames))))
            {
                return false;
            }
        }

        return true;
    }

    private static double[][] Block(int channels) => [.. Enumerable.Range(0, channels).Select(_ => new double[BlockFrames])];

    private static int FirstDifference(ReadOnlySpan<double> a, ReadOnlySpan<double> b) => a.CommonPrefixLength(b);

    private static double Largest(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var largest = 0.0;
        for (var n = 0; n < a.Length; n++)
        {
            largest = Math.Max(largest, Math.Abs(a[n] - b[n]));
        }

        return largest;
    }
}
