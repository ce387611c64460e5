namespace DrumPrint.Dsp.Masking;

/// <summary>The last samples of a channel, and the spectra of the oldest and the newest frame among them.</summary>
internal sealed class FrameReader
{
    private readonly SpillLayout _layout;
    private readonly double[] _ring;
    private readonly double[] _weighted;
    private int _at;

    /// <param name="layout">How it is cut.</param>
    /// <param name="stepsBetween">Steps from the oldest frame to the newest.</param>
    public FrameReader(SpillLayout layout, int stepsBetween)
    {
        _layout = layout;
        _ring = new double[layout.Frames.Length + (stepsBetween * layout.Frames.Step)];
        _weighted = new double[layout.Frames.Transform];
        Re = new double[layout.Frames.Bins];
        Im = new double[layout.Frames.Bins];
    }

    /// <summary>Real parts of the spectrum read last.</summary>
    public double[] Re { get; }

    /// <summary>Imaginary parts.</summary>
    public double[] Im { get; }

    /// <summary>The oldest step of samples; the next step is written over it.</summary>
    public Span<double> Oldest => _ring.AsSpan(_at, _layout.Frames.Step);

    /// <summary>Makes the step that was written the newest.</summary>
    public void Next() => _at = _at + _layout.Frames.Step == _ring.Length ? 0 : _at + _layout.Frames.Step;

    /// <summary>Reads the frame that begins with the oldest step.</summary>
    public void ReadOldest() => Read(_at);

    /// <summary>Reads the frame that ends with the newest step.</summary>
    public void ReadNewest()
    {
        var from = _at - _layout.Frames.Length;
        Read(from < 0 ? from + _ring.Length : from);
    }

    private void Read(int from)
    {
        var window = _layout.Frames.Window;
        var first = Math.Min(window.Length, _ring.Length - from);
        Weight(_ring.AsSpan(from, first), window, _weighted);
        Weight(_ring.AsSpan(0, window.Length - first), window.AsSpan(first), _weighted.AsSpan(first));
        _layout.Fft.Forward(_weighted, Re, Im);
    }

    private static void Weight(ReadOnlySpan<double> samples, ReadOnlySpan<double> window, Span<double> to)
    {
        for (var n = 0; n < samples.Length; n++)
        {
            to[n] = samples[n] * window[n];
        }
    }
}
