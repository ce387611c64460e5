namespace DrumPrint.Comparing.Measuring;

/// <summary>Finds hits: places where the level of the next 10 ms rises by 6 dB over that of the 30 ms before.</summary>
/// <remarks>Works on the energy of slices of a millisecond. A hit counts when it is within 40 dB of the loudest 10 ms, and
/// hits are at least 50 ms apart. None of this depends on the level of the whole.</remarks>
internal static class Onsets
{
    public const int SlicesPerSecond = 1000;

    private const int Ahead = 10;
    private const int Behind = 30;
    private const int Apart = 50;
    private const double Rise = 4; // 6 dB
    private const double Floor = 1e-4; // −40 dB
    private const double Quiet = 1e-7; // −70 dB, so that silence before a hit divides

    /// <summary>First frame of a slice.</summary>
    public static long FrameAt(long slice, int rateHz) => slice * rateHz / SlicesPerSecond;

    /// <summary>Energies of the slices of a sound.</summary>
    public static double[] Slices(Sound sound) => Slices(sound, (int)((long)sound.Frames * SlicesPerSecond / sound.RateHz));

    /// <summary>Energies of so many slices of a sound; where rates do not divide, the last may end a frame past it.</summary>
    public static double[] Slices(Sound sound, int count)
    {
        var slices = new double[count];
        for (var i = 0; i < slices.Length; i++)
        {
            var from = (int)Math.Min(sound.Frames, FrameAt(i, sound.RateHz));
            var to = (int)Math.Min(sound.Frames, FrameAt(i + 1, sound.RateHz));
            foreach (var channel in sound.Channels)
            {
                slices[i] += Levels.Energy(channel.AsSpan(from, to - from));
            }
        }

        return slices;
    }

    /// <summary>Slices at which hits begin, in order.</summary>
    public static IReadOnlyList<int> Find(ReadOnlySpan<double> slices)
    {
        var sums = new double[slices.Length + 1];
        for (var i = 0; i < slices.Length; i++)
        {
            sums[i + 1] = sums[i] + slices[i];
        }

        double Mean(int from, int to)
        {
            (from, to) = (Math.Clamp(from, 0, sums.Length - 1), Math.Clamp(to, 0, sums.Length - 1));
            return to <= from ? 0 : Math.Max(0, sums[to] - sums[from]) / (to - from);
        }

        var loudest = 0.0;
        for (var i = 0; i + Ahead < sums.Length; i++)
        {
            loudest = Math.Max(loudest, Mean(i, i + Ahead));
        }

        var found = new List<int>();
        if (loudest == 0)
        {
            return found;
        }

        double RiseAt(int i) => Mean(i, i + Ahead) / (Mean(i - Behind, i) + (loudest * Quiet));

        for (var i = 0; i + Ahead < sums.Length; i++)
        {
            if (RiseAt(i) < Rise || Mean(i, i + Ahead) < loudest * Floor)
            {
                continue;
            }

            var best = i;
            for (var j = i + 1; j <= i + Ahead && j + Ahead < sums.Length; j++)
            {
                best = RiseAt(j) > RiseAt(best) ? j : best;
            }

            found.Add(best);
            i = best + Apart - 1;
        }

        return found;
    }
}
