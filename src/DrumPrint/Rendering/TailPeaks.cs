using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>Largest magnitudes of a written signal: one for its body and one for each 10 ms of its tail.</summary>
/// <remarks>What lies past <see cref="WrittenStretch.TailTo"/> is not looked at, so the figures depend on the signal alone and
/// not on how long the rest of the session rings.</remarks>
/// <param name="stretch">What part of song time is written.</param>
/// <param name="sampleRate">Hertz.</param>
internal sealed class TailPeaks(WrittenStretch stretch, int sampleRate)
{
    private readonly int _windowFrames = Window(sampleRate);
    private readonly double[] _windows = new double[Math.Max(0, (stretch.TailTo - stretch.TailFrom + Window(sampleRate) - 1) / Window(sampleRate))];
    private double _body;

    /// <summary>Frames in which a tail is measured.</summary>
    public static int Window(int sampleRate) => sampleRate / 100;

    /// <summary>Largest magnitude.</summary>
    public double Peak => Math.Max(_body, _windows.DefaultIfEmpty().Max());

    /// <summary>Looks at the next frames.</summary>
    /// <param name="frame">Song time of the first.</param>
    /// <param name="block">The samples.</param>
    public void Add(long frame, AudioBlock block)
    {
        var body = (int)Math.Clamp(stretch.TailFrom - frame, 0, block.Frames);
        for (var channel = 0; channel < block.Channels; channel++)
        {
            _body = Blend.Peak(block[channel][..body], _body);
        }

        var end = (int)Math.Clamp(stretch.TailTo - frame, body, block.Frames);
        for (var tail = body; tail < end;)
        {
            var position = frame + tail - stretch.TailFrom;
            var window = position / _windowFrames;
            var length = (int)Math.Min(end - tail, ((window + 1) * _windowFrames) - position);
            for (var channel = 0; channel < block.Channels; channel++)
            {
                _windows[window] = Blend.Peak(block[channel].Slice(tail, length), _windows[window]);
            }

            tail += length;
        }
    }

    /// <summary>First frame of song time from which the signal stays below a part of its own peak.</summary>
    public long QuietFrom(double partOfPeak)
    {
        var peak = Peak;
        var last = Array.FindLastIndex(_windows, p => p > peak * partOfPeak);
        return last < 0 ? stretch.TailFrom : Math.Min(stretch.TailTo, stretch.TailFrom + ((last + 1L) * _windowFrames));
    }

    /// <summary>Largest magnitude up to a frame at which a window ends.</summary>
    public double PeakBefore(long frame)
    {
        var windows = (int)Math.Clamp((frame - stretch.TailFrom + _windowFrames - 1) / _windowFrames, 0, _windows.Length);
        return Math.Max(_body, _windows.Take(windows).DefaultIfEmpty().Max());
    }
}
