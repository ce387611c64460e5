using DrumPrint.Audio;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Subjects;

/// <summary>How well the playing prints add up to the rough.</summary>
/// <param name="LagFrames">Frames by which the rough is later than the sum.</param>
/// <param name="SumPeak">Peak of the sum at unity.</param>
/// <param name="LeftPeak">Peak of the sum less the rough, as the files lie.</param>
/// <param name="Gains">Best gain of each print, and how far it may be off.</param>
internal sealed record UnityFit(long LagFrames, double SumPeak, double LeftPeak, IReadOnlyList<(CheckedTake Print, double Gain, double Doubt)> Gains)
{
    private const int BlockFrames = 1 << 12;
    private const int EachBlock = 4;
    private const double LatestMs = 80;

    /// <summary>Reads all of them in one pass.</summary>
    /// <param name="prints">The playing prints, each mono or stereo, at one rate.</param>
    /// <param name="rough">The rough.</param>
    /// <param name="monoGain">Gain of a centred mono file on each side.</param>
    /// <param name="windows">Reads stretches.</param>
    /// <param name="cancel">Stops it.</param>
    public static UnityFit Of(IReadOnlyList<CheckedTake> prints, CheckedTake rough, double monoGain, Windows windows, CancellationToken cancel)
    {
        var lag = Lag(prints, rough, monoGain, windows);
        var readers = prints.Select(p => AudioReader.Open(p.Path, AudioHashes.None)).ToList();
        using var roughReader = AudioReader.Open(rough.Path, AudioHashes.None);
        try
        {
            return Of(prints, readers, roughReader, monoGain, lag, windows, rough, cancel);
        }
        finally
        {
            readers.ForEach(r => r.Dispose());
        }
    }

    private static UnityFit Of(IReadOnlyList<CheckedTake> prints, List<AudioReader> readers, AudioReader roughReader, double monoGain, long lag, Windows windows, CheckedTake rough, CancellationToken cancel)
    {
        var n = prints.Count;
        var blocks = prints.Select(_ => Stereo()).ToList();
        var target = Stereo();
        var late = Stereo();
        var roughSides = Enumerable.Range(0, 2).Select(c => windows.Channel(rough, rough.Info!.Channels == 1 ? 0 : c)).ToArray();
        var products = new double[n, n];
        var right = new double[n];
        var power = 0.0;
        var (sumPeak, leftPeak) = (0.0, 0.0);
        var frames = Math.Max(rough.Info!.Frames, prints.Max(p => p.Info!.Frames));
        for (long frame = 0, block = 0; frame < frames; frame += BlockFrames, block++)
        {
            cancel.ThrowIfCancellationRequested();
            for (var i = 0; i < n; i++)
            {
                Read(readers[i], blocks[i], monoGain);
            }

            Read(roughReader, target, 1);
            for (var side = 0; side < 2; side++)
            {
                for (var f = 0; f < BlockFrames; f++)
                {
                    var sum = 0.0;
                    for (var i = 0; i < n; i++)
                    {
                        sum += blocks[i][side][f];
                    }

                    sumPeak = Math.Max(sumPeak, Math.Abs(sum));
                    leftPeak = Math.Max(leftPeak, Math.Abs(sum - target[side][f]));
                }

                if (block % EachBlock == 0)
                {
                    roughSides[side](frame + lag, late[side]);
                    power += Gather(blocks, late, side, products, right);
                }
            }
        }

        return new UnityFit(lag, sumPeak, leftPeak, Solve(prints, products, right, power));
    }

    private static double Gather(List<double[][]> blocks, double[][] target, int side, double[,] products, double[] right)
    {
        for (var i = 0; i < blocks.Count; i++)
        {
            for (var j = i; j < blocks.Count; j++)
            {
                products[i, j] += Dot(blocks[i][side], blocks[j][side]);
            }

            right[i] += Dot(blocks[i][side], target[side]);
        }

        return Dot(target[side], target[side]);
    }

    private static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var n = 0; n < a.Length; n++)
        {
            sum += a[n] * b[n];
        }

        return sum;
    }

    // Cholesky's way through the normal equations; a silent print has gain 1, for nothing can be said of it.
    private static List<(CheckedTake Print, double Gain, double Doubt)> Solve(IReadOnlyList<CheckedTake> prints, double[,] products, double[] right, double power)
    {
        var kept = Enumerable.Range(0, prints.Count).Where(i => products[i, i] > 0).ToList();
        var m = kept.Count;
        var l = new double[m, m];
        var (y, x) = (new double[m], new double[m]);
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = products[kept[j], kept[i]];
                for (var k = 0; k < j; k++)
                {
                    sum -= l[i, k] * l[j, k];
                }

                l[i, j] = i == j ? Math.Sqrt(Math.Max(sum, products[kept[i], kept[i]] * 1e-12)) : sum / l[j, j];
            }

            y[i] = right[kept[i]];
            for (var k = 0; k < i; k++)
            {
                y[i] -= l[i, k] * y[k];
            }

            y[i] /= l[i, i];
        }

        for (var i = m - 1; i >= 0; i--)
        {
            x[i] = y[i];
            for (var k = i + 1; k < m; k++)
            {
                x[i] -= l[k, i] * x[k];
            }

            x[i] /= l[i, i];
        }

        // What is left over, laid wholly on one print, is the most its gain can be off.
        var left = Math.Sqrt(Math.Max(0, power - y.Sum(v => v * v)));
        return [.. prints.Select((p, i) => kept.IndexOf(i) is >= 0 and var k ? (p, x[k], left / Math.Sqrt(products[i, i])) : (p, 1.0, double.PositiveInfinity))];
    }

    private static long Lag(IReadOnlyList<CheckedTake> prints, CheckedTake rough, double monoGain, Windows windows)
    {
        var parts = prints.Select(p => (Read: windows.Middle(p), Gain: p.Info!.Channels == 1 ? monoGain : 1)).ToList();
        FrameReader sum = (first, frames) =>
        {
            frames.Clear();
            var part = new double[frames.Length];
            foreach (var (read, gain) in parts)
            {
                read(first, part);
                for (var n = 0; n < part.Length; n++)
                {
                    frames[n] += gain * part[n];
                }
            }
        };
        var loudest = prints.MaxBy(p => p.Figures!.Rms)!;
        var estimate = PairEstimator.Of(loudest.Figures!.Hits, sum, windows.Middle(rough), rough.Figures!.RateHz, new AlignmentSearch { EarliestMs = -LatestMs, LatestMs = LatestMs, MostHits = 24 });
        return estimate.IsDelayKnown ? (long)Math.Round(estimate.DelayFrames) : 0;
    }

    private static double[][] Stereo() => [new double[BlockFrames], new double[BlockFrames]];

    private static void Read(AudioReader reader, double[][] sides, double monoGain)
    {
        if (reader.Info.Channels == 1)
        {
            reader.Read(new AudioBlock([sides[0]], 0, BlockFrames));
            for (var n = 0; n < BlockFrames; n++)
            {
                sides[0][n] *= monoGain;
            }

            sides[0].CopyTo(sides[1], 0);
        }
        else
        {
            reader.Read(new AudioBlock(sides, 0, BlockFrames));
        }
    }
}
