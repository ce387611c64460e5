namespace DrumPrint.Dsp.Oversampling;

/// <summary>Raises the rate of a signal 2, 4, 8 or 16 times for a stage that bends it, and lowers it again.</summary>
/// <remarks>
/// Half-band filters double the rate step by step and halve it again down to twice the frame rate. The last step down is a full
/// low-pass that ends at half the frame rate. A half-band filter there would let harmonics just above fold back just below. That
/// filter also makes the delay of everything together a whole number of frames. It evens out the stage's own droop, too.
/// </remarks>
internal sealed class Oversampler
{
    /// <summary>Frames before the stretch that the stage can read at the full rate.</summary>
    public const int CoreHistory = 2;

    private readonly PhaseFilter[] _up;
    private readonly PhaseFilter[] _down;
    private readonly PhaseBuffer _doubled;
    private readonly PhaseBuffer _raised;
    private readonly PhaseBuffer _lowered;

    /// <param name="factor">2, 4, 8 or 16.</param>
    /// <param name="channels">Channels, processed side by side.</param>
    /// <param name="sampleRate">Frame rate in hertz.</param>
    /// <param name="stageDelay">Delay of the stage in samples of the full rate.</param>
    /// <param name="gain">Gain to give the pass band on the way down, by frequency as a part of the frame rate.</param>
    /// <param name="cancels">Whether a signal the stage leaves alone is to come back so exactly that it cancels against itself.</param>
    public Oversampler(int factor, int channels, int sampleRate, double stageDelay, Func<double, double> gain, bool cancels)
    {
        var filters = BandFilter.For(sampleRate);
        var up = new List<PhaseFilter>();
        var down = new List<PhaseFilter>();
        var delay = stageDelay / factor;
        for (var phases = 1; phases < factor; phases *= 2)
        {
            var response = filters.Up(up.Count);
            delay += Delay(response, 2 * phases);
            up.Add(PhaseFilter.Doubling(response, phases, channels));
            if (phases > 1)
            {
                response = BandFilter.Down(down.Count + 1);
                delay += Delay(response, 2 * phases);
                down.Insert(0, PhaseFilter.Halving(response, 2 * phases, channels));
            }
        }

        LatencyFrames = (int)Math.Ceiling(delay + (filters.LowPassReach(cancels) / 2.0));
        down.Add(PhaseFilter.Halving(filters.LowPass(2 * (LatencyFrames - delay), gain, cancels), 2, channels));
        _up = [.. up];
        _down = [.. down];
        _raised = new PhaseBuffer(factor, CoreHistory, channels);
        _lowered = new PhaseBuffer(1, 0, channels);
        _doubled = factor == 2 ? _raised : _up[1].Input;
    }

    /// <summary>Delay of the way up, the stage and the way down together.</summary>
    public int LatencyFrames { get; }

    /// <summary>Processes a stretch of at most <see cref="PhaseBuffer.MaxFrames"/> frames in place.</summary>
    public void Process(AudioBlock stretch, IOversampledStage stage)
    {
        var frames = stretch.Frames;
        _up[0].Input.Put(stretch, 0);
        _up[0].Run(_doubled, frames);
        stage.Before(_doubled, frames);
        for (var i = 1; i < _up.Length; i++)
        {
            _up[i].Run(i + 1 < _up.Length ? _up[i + 1].Input : _raised, frames);
        }

        stage.Bend(_raised, _down[0].Input, frames);
        _raised.Advance(frames);
        for (var i = 0; i < _down.Length - 1; i++)
        {
            _down[i].Run(_down[i + 1].Input, frames);
        }

        stage.After(_down[^1].Input, frames);
        _down[^1].Run(_lowered, frames);
        _lowered.Take(stretch, 0);
    }

    // In frames.
    private static double Delay(double[] response, int phases) => (response.Length - 1) / 2.0 / phases;
}
