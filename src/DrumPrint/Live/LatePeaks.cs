using DrumPrint.Dsp;

namespace DrumPrint.Live;

/// <summary>Highest sample of each millisecond of a sound that lags the song, as it comes in.</summary>
internal sealed class LatePeaks(int rateHz, long frames, long latency)
{
    private readonly float[] _peaks = new float[(frames * 1000 / rateHz) + 1];
    private long _frame = -latency;

    public void Add(AudioBlock block)
    {
        for (var c = 0; c < block.Channels; c++)
        {
            var samples = block[c];
            for (var n = (int)Math.Clamp(-_frame, 0, samples.Length); n < samples.Length; n++)
            {
                var ms = (_frame + n) * 1000 / rateHz;
                if (ms >= _peaks.Length)
                {
                    break;
                }

                _peaks[ms] = Math.Max(_peaks[ms], (float)Math.Abs(samples[n]));
            }
        }

        _frame += block.Frames;
    }

    /// <summary>The highest of a stretch, in seconds of the song.</summary>
    public double Highest(double fromS, double toS)
    {
        var from = (int)Math.Clamp(fromS * 1000, 0, _peaks.Length);
        var highest = 0f;
        for (var ms = from; ms < Math.Min(_peaks.Length, toS * 1000); ms++)
        {
            highest = Math.Max(highest, _peaks[ms]);
        }

        return highest;
    }
}
