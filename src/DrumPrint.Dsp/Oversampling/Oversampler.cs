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

    /// <param name="design">Its responses.</param>
    /// <param name="channels">Channels, processed side by side.</param>
    public Oversampler(OversamplerDesign design, int channels)
    {
        LatencyFrames = design.LatencyFrames;
        _up = [.. design.Up.Select((response, step) => PhaseFilter.Doubling(response, 1 << step, channels))];
        _down = [.. design.Down.Select((response, step) => PhaseFilter.Halving(response, 2 << step, channels)).Reverse()];
        _raised = new PhaseBuffer(1 << _up.Length, CoreHistory, channels);
        _lowered = new PhaseBuffer(1, 0, channels);
        _doubled = _up.Length == 1 ? _raised : _up[1].Input;
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
}
