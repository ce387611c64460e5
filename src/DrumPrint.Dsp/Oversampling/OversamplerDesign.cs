namespace DrumPrint.Dsp.Oversampling;

/// <summary>The responses of an <see cref="Oversampler"/>. They hang on no signal, so that several may share them.</summary>
internal sealed class OversamplerDesign
{
    /// <param name="factor">2, 4, 8 or 16.</param>
    /// <param name="sampleRate">Frame rate in hertz.</param>
    /// <param name="stageDelay">Delay of the stage in samples of the full rate.</param>
    /// <param name="gain">Gain to give the pass band on the way down, by frequency as a part of the frame rate.</param>
    /// <param name="cancels">Whether a signal the stage leaves alone is to come back so exactly that it cancels against itself.</param>
    public OversamplerDesign(int factor, int sampleRate, double stageDelay, Func<double, double> gain, bool cancels)
    {
        var filters = BandFilter.For(sampleRate);
        var up = new List<double[]>();
        var down = new List<double[]>();
        var delay = stageDelay / factor;
        for (var phases = 1; phases < factor; phases *= 2)
        {
            up.Add(filters.Up(up.Count));
            delay += Delay(up[^1], 2 * phases);
            if (phases > 1)
            {
                down.Add(BandFilter.Down(down.Count + 1));
                delay += Delay(down[^1], 2 * phases);
            }
        }

        LatencyFrames = (int)Math.Ceiling(delay + (filters.LowPassReach(cancels) / 2.0));
        Up = up;
        Down = [filters.LowPass(2 * (LatencyFrames - delay), gain, cancels), .. down];
    }

    /// <summary>The way up, from the frame rate on.</summary>
    public IReadOnlyList<double[]> Up { get; }

    /// <summary>The way down, that to the frame rate first.</summary>
    public IReadOnlyList<double[]> Down { get; }

    /// <summary>Delay of the way up, the stage and the way down together.</summary>
    public int LatencyFrames { get; }

    // In frames.
    private static double Delay(double[] response, int phases) => (response.Length - 1) / 2.0 / phases;
}
