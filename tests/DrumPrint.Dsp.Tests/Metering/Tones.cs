using DrumPrint.Dsp.Metering;

namespace DrumPrint.Dsp.Tests.Metering;

/// <summary>Stretches of a sine at given peak levels on one running phase, as the EBU's test signals are put together.</summary>
internal static class Tones
{
    public static LoudnessMeter Measure(
        IReadOnlyList<(double Seconds, double PeakDb)> stretches, int sampleRate = 48000, int channels = 2, double freqHz = 1000, int blockFrames = 4800)
    {
        var lengths = stretches.Select(s => (long)Math.Round(s.Seconds * sampleRate)).ToArray();
        var meter = new LoudnessMeter(new AudioFormat(sampleRate, channels), lengths.Sum());
        var buffer = Enumerable.Range(0, channels).Select(_ => new double[blockFrames]).ToArray();
        var period = Enumerable.Range(0, sampleRate).Select(n => Math.Sin(2 * Math.PI * (freqHz * n / sampleRate % 1))).ToArray();
        var filled = 0;
        long frame = 0;
        foreach (var (length, (_, peakDb)) in lengths.Zip(stretches))
        {
            var peak = Math.Pow(10, peakDb / 20);
            for (var end = frame + length; frame < end; frame++)
            {
                foreach (var channel in buffer)
                {
                    channel[filled] = peak * period[frame % sampleRate];
                }

                if (++filled == blockFrames)
                {
                    meter.Add(new AudioBlock(buffer, 0, filled));
                    filled = 0;
                }
            }
        }

        meter.Add(new AudioBlock(buffer, 0, filled));
        return meter;
    }
}
