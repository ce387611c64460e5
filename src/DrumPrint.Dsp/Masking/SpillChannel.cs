namespace DrumPrint.Dsp.Masking;

/// <summary>One channel of the microphone: learns the ways from the keys to it, and takes out what came by them.</summary>
/// <remarks>What is turned down is worked out and subtracted. So where nothing is, every bit stays.</remarks>
internal sealed class SpillChannel
{
    private readonly SpillLayout _layout;
    private readonly SpillKey[] _keys;
    private readonly SpillWay[] _ways;
    private readonly FrameReader _reader;
    private readonly RecentMean _recent;
    private readonly SpillMask _mask;
    private readonly double[] _bins;
    private readonly double[] _bands;
    private readonly double[] _frame;
    private readonly double[] _lost;
    private int _at;

    /// <param name="layout">How it is cut.</param>
    /// <param name="keys">What is heard better elsewhere.</param>
    /// <param name="moments">Steps over which the ways are learnt.</param>
    /// <param name="most">The loudest way that is believed, as power.</param>
    /// <param name="floor">The lowest gain.</param>
    public SpillChannel(SpillLayout layout, SpillKey[] keys, int moments, double most, double floor)
    {
        (_layout, _keys) = (layout, keys);
        _ways = Array.ConvertAll(keys, _ => new SpillWay(layout.Bands.Count, moments, most));
        _reader = new FrameReader(layout, layout.StepsAhead);
        _recent = new RecentMean(layout.Bands.Count, SpillLayout.RecentSteps);
        _mask = new SpillMask(layout.Frames.Bins, floor);
        _bins = new double[layout.Frames.Bins];
        _bands = new double[layout.Bands.Count];
        _frame = new double[layout.Frames.Transform];
        _lost = new double[layout.Frames.Length];
        Out = new double[layout.Frames.Step];
    }

    /// <summary>Where the next step of samples goes.</summary>
    public Span<double> Newest => _reader.Oldest;

    /// <summary>The step that has come through.</summary>
    public double[] Out { get; }

    /// <summary>Gain of the frame that begins with <see cref="Out"/>.</summary>
    public double Gain => _mask.Gain;

    /// <summary>Takes in the step that was written, after the keys have taken in theirs.</summary>
    public void Next()
    {
        _reader.Next();
        Learn();
        Expect();
        _reader.ReadOldest();
        _mask.Find(_reader.Re, _reader.Im, _bins);
        if (_mask.Works)
        {
            AddLost();
        }

        // Every frame that the oldest step lies in has been worked on.
        var lost = _lost.AsSpan(_at, Out.Length);
        var oldest = _reader.Oldest;
        for (var n = 0; n < lost.Length; n++)
        {
            Out[n] = oldest[n] - lost[n];
        }

        lost.Clear();
        _at = _at + Out.Length == _lost.Length ? 0 : _at + Out.Length;
    }

    private void Learn()
    {
        _reader.ReadNewest();
        _layout.Frames.Powers(_reader.Re, _reader.Im, _bins);
        _layout.Bands.Mean(_bins, _bands);
        _recent.Add(_bands);
        for (var key = 0; key < _keys.Length; key++)
        {
            _ways[key].Add(_recent.Mean, _keys[key].Leading);
        }
    }

    // The squares of the bins that all keys together should come to here.
    private void Expect()
    {
        Array.Clear(_bins);
        for (var key = 0; key < _keys.Length; key++)
        {
            _ways[key].Read(_bands);
            var ringing = _keys[key].Ringing;
            for (var band = 0; band < _bands.Length; band++)
            {
                var way = _bands[band] / _layout.Frames.ToPower;
                for (var bin = _layout.Bands[band]; bin < _layout.Bands[band + 1]; bin++)
                {
                    _bins[bin] += way * ringing[bin];
                }
            }
        }
    }

    private void AddLost()
    {
        var gains = _mask.Gains;
        for (var bin = 0; bin < gains.Length; bin++)
        {
            var lost = (1 - gains[bin]) * _layout.Frames.Overlap;
            _reader.Re[bin] *= lost;
            _reader.Im[bin] *= lost;
        }

        _layout.Fft.Inverse(_reader.Re, _reader.Im, _frame);
        var window = _layout.Frames.Window;
        var first = _lost.Length - _at;
        Add(_frame.AsSpan(0, first), window, _lost.AsSpan(_at));
        Add(_frame.AsSpan(first, _at), window.AsSpan(first), _lost);
    }

    private static void Add(ReadOnlySpan<double> frame, ReadOnlySpan<double> window, Span<double> to)
    {
        for (var n = 0; n < frame.Length; n++)
        {
            to[n] += frame[n] * window[n];
        }
    }
}
