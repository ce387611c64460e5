using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Delivering;

/// <summary>Proves from delivered files, read back, that the playing prints add up to the rough, whatever a receiver's pan law.</summary>
/// <remarks>
/// A law is a gain on every centred mono file and on no stereo file. So one pass sums mono and stereo files apart, and tries
/// every gain on the sums. The levels of the laws are arithmetic. Half the power on each side is 10·lg ½ = −3.0103 dB, half the
/// amplitude −6.0206 dB. The geometric mean of the two is −4.5154 dB.
/// </remarks>
internal static class UnityProof
{
    private const int BlockFrames = 1 << 14;
    private const int Digits = 4;

    // −2.5 dB is a setting, not a formula: it is what it says.
    private static readonly (string Name, double CentreDb)[] Laws =
    [
        ("0 dB (no change)", 0),
        ("−2.5 dB", -2.5),
        ("−3 dB (equal power)", -3.010299956639812),
        ("−4.5 dB (between)", -4.515449934959718),
        ("−6 dB (equal amplitude)", -6.020599913279624),
    ];

    /// <summary>Measures.</summary>
    /// <param name="prints">The playing prints.</param>
    /// <param name="rough">The rough: one file, or its two sides.</param>
    /// <param name="roughLawDb">Level at which the rough was made of centred mono prints.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>A line for each law.</returns>
    public static IReadOnlyList<PanLawLine> Measure(IReadOnlyList<ProofFile> prints, IReadOnlyList<ProofFile> rough, double roughLawDb, CancellationToken cancel)
    {
        var tries = Laws.Select(law => Try(law.CentreDb, roughLawDb)).ToList();
        double[] gains = [.. tries.SelectMany(t => new[] { t.Exact, t.Typed, t.Bare })];
        var left = Peaks(prints, rough, gains, cancel);
        return
        [
            .. Laws.Select((law, i) => new PanLawLine(
                law.Name,
                law.CentreDb,
                tries[i].ExactDb,
                Decibels.FromGain(left[3 * i]),
                tries[i].TypedDb,
                Decibels.FromGain(left[(3 * i) + 1]),
                Decibels.FromGain(left[(3 * i) + 2]))),
        ];
    }

    private static (double Exact, double Typed, double Bare, double ExactDb, double TypedDb) Try(double centreDb, double roughLawDb)
    {
        var correction = Math.Round(roughLawDb - centreDb, Digits);
        var typed = Math.Round(correction, 1);
        return (Decibels.ToGain(centreDb + correction), Decibels.ToGain(centreDb + typed), Decibels.ToGain(centreDb), correction, typed);
    }

    private static double[] Peaks(IReadOnlyList<ProofFile> prints, IReadOnlyList<ProofFile> rough, double[] gains, CancellationToken cancel)
    {
        var readers = new List<AudioReader>();
        try
        {
            readers.AddRange(prints.Concat(rough).Select(p => AudioReader.Open(p.Path, AudioHashes.None)));
            var peaks = new double[gains.Length];
            double[][] mono = [new double[BlockFrames]];
            var (stereo, target, one) = (Two(), Two(), Two());
            for (var frames = int.MaxValue; frames > 0;)
            {
                cancel.ThrowIfCancellationRequested();
                Array.Clear(mono[0]);
                Array.ForEach(stereo, Array.Clear);
                Array.ForEach(target, Array.Clear);
                frames = 0;
                for (var i = 0; i < prints.Count; i++)
                {
                    frames = Math.Max(frames, Add(readers[i], prints[i].Side, one, mono[0], stereo));
                }

                for (var i = 0; i < rough.Count; i++)
                {
                    frames = Math.Max(frames, Put(readers[prints.Count + i], rough[i].Side, target));
                }

                for (var c = 0; c < 2; c++)
                {
                    Compare(mono[0].AsSpan(0, frames), stereo[c].AsSpan(0, frames), target[c].AsSpan(0, frames), gains, peaks);
                }
            }

            return peaks;
        }
        finally
        {
            readers.ForEach(r => r.Dispose());
        }
    }

    private static double[][] Two() => [new double[BlockFrames], new double[BlockFrames]];

    // A side is hard left or right, and no pan law takes anything from it.
    private static int Add(AudioReader reader, SoundSide side, double[][] one, double[] mono, double[][] stereo)
    {
        var channels = reader.Info.Channels;
        var frames = reader.Read(new AudioBlock(one.AsSpan(0, channels), 0, BlockFrames));
        for (var c = 0; c < channels; c++)
        {
            Add(one[c].AsSpan(0, frames), side != SoundSide.Whole ? stereo[side == SoundSide.Left ? 0 : 1] : channels == 1 ? mono : stereo[c]);
        }

        return frames;
    }

    private static int Put(AudioReader reader, SoundSide side, double[][] target)
    {
        if (side != SoundSide.Whole)
        {
            return reader.Read(new AudioBlock(target.AsSpan(side == SoundSide.Left ? 0 : 1, 1), 0, BlockFrames));
        }

        var frames = reader.Read(new AudioBlock(target.AsSpan(0, reader.Info.Channels), 0, BlockFrames));
        if (reader.Info.Channels == 1)
        {
            target[0].CopyTo(target[1], 0);
        }

        return frames;
    }

    private static void Add(ReadOnlySpan<double> source, Span<double> target)
    {
        for (var n = 0; n < source.Length; n++)
        {
            target[n] += source[n];
        }
    }

    private static void Compare(ReadOnlySpan<double> mono, ReadOnlySpan<double> stereo, ReadOnlySpan<double> rough, double[] gains, double[] peaks)
    {
        for (var g = 0; g < gains.Length; g++)
        {
            var (gain, peak) = (gains[g], peaks[g]);
            for (var n = 0; n < rough.Length; n++)
            {
                peak = Math.Max(peak, Math.Abs(stereo[n] + (gain * mono[n]) - rough[n]));
            }

            peaks[g] = peak;
        }
    }
}
