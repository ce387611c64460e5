using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>Largest magnitudes of a written signal, one for each 10 ms of song time.</summary>
/// <remarks>What lies past <see cref="WrittenStretch.TailTo"/> is not looked at. Windows are counted from the first frame of the
/// song. So the figures depend on the signal alone. How long the rest of the session plays or rings changes nothing. Windows of
/// 10 ms and the 90 dB a tail has to fall are own bars. No tail has a gap so short. So far down, a tail is under the noise of 16
/// bits.</remarks>
/// <param name="stretch">What part of song time is written.</param>
/// <param name="sampleRate">Hertz.</param>
internal sealed class TailPeaks(WrittenStretch stretch, int sampleRate)
{
    private const int WindowsPerSecond = 100;

    private readonly double[] _windows = new double[stretch.TailTo == 0 ? 0 : Index(stretch.TailTo - 1, sampleRate) + 1];

    /// <summary>End of the window in which a signal ends, in frames of song time; 0 for none.</summary>
    public static long WindowEnd(long end, int sampleRate) => Start(end == 0 ? 0 : Index(end - 1, sampleRate) + 1, sampleRate);

    /// <summary>Largest magnitude.</summary>
    public double Peak => _windows.DefaultIfEmpty().Max();

    /// <summary>Looks at the next frames.</summary>
    /// <param name="frame">Song time of the first.</param>
    /// <param name="block">The samples.</param>
    public void Add(long frame, AudioBlock block)
    {
        var end = (int)Math.Clamp(stretch.TailTo - frame, 0, block.Frames);
        for (var done = 0; done < end;)
        {
            var window = Index(frame + done, sampleRate);
            var length = (int)Math.Min(end - done, Start(window + 1, sampleRate) - frame - done);
            for (var channel = 0; channel < block.Channels; channel++)
            {
                _windows[window] = Blend.Peak(block[channel].Slice(done, length), _windows[window]);
            }

            done += length;
        }
    }

    /// <summary>First frame of song time from which the signal stays below a part of its own peak.</summary>
    public long QuietFrom(double partOfPeak)
    {
        var peak = Peak;
        var last = Array.FindLastIndex(_windows, p => p > peak * partOfPeak);
        return Math.Min(stretch.TailTo, Start(last + 1L, sampleRate));
    }

    /// <summary>Largest magnitude up to a frame at which a window ends.</summary>
    public double PeakBefore(long frame) => frame == 0 ? 0 : _windows.Take(Index(frame - 1, sampleRate) + 1).DefaultIfEmpty().Max();

    // Windows of a rate that a hundred does not divide differ by a frame, so that each second holds a hundred of them.
    private static int Index(long frame, int sampleRate) => (int)(frame * WindowsPerSecond / sampleRate);

    private static long Start(long window, int sampleRate) => ((window * sampleRate) + WindowsPerSecond - 1) / WindowsPerSecond;
}
