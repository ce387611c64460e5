using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Masking;

/// <summary>One channel of the key: its power as it comes in, by bands, and as it is needed, by bins and with what a room lets ring.</summary>
internal sealed class SpillKey
{
    // Below this nothing rings: −300 dB.
    private const double Silent = 1e-30;

    private readonly SpillLayout _layout;
    private readonly FrameReader _reader;
    private readonly RecentMean _recent;
    private readonly double[] _bins;
    private readonly double[] _bands;
    private readonly float[] _waiting;
    private readonly double _keep;
    private int _at;

    /// <param name="layout">How it is cut.</param>
    /// <param name="ringS">Seconds in which the room falls by 60 dB; 0 for a dead one.</param>
    public SpillKey(SpillLayout layout, double ringS)
    {
        _layout = layout;
        _reader = new FrameReader(layout, 0);
        _recent = new RecentMean(layout.Bands.Count, SpillLayout.RecentSteps);
        _bins = new double[layout.Frames.Bins];
        _bands = new double[layout.Bands.Count];
        _waiting = new float[layout.Frames.Bins * (layout.StepsAhead + 1)];
        var steps = layout.Frames.Steps(ringS);
        _keep = steps > 0 ? Decibels.ToGain(-120.0 / steps) : 0;
        Ringing = new double[layout.Frames.Bins];
        Leading = new double[layout.Bands.Count];
    }

    /// <summary>Where the next step of samples goes.</summary>
    public Span<double> Newest => _reader.Oldest;

    /// <summary>Mean power of the newest frames, by bands.</summary>
    public ReadOnlySpan<double> Recent => _recent.Mean;

    /// <summary>The same, where no other key is louder; 0 elsewhere. See <see cref="LeadOver"/>.</summary>
    public double[] Leading { get; }

    /// <summary>Power of the frame that is needed, of the one after it and of what rings on from before, by bins.</summary>
    public double[] Ringing { get; }

    /// <summary>Takes in the step that was written.</summary>
    public void Next()
    {
        _reader.Next();
        _reader.ReadNewest();
        _layout.Frames.Powers(_reader.Re, _reader.Im, _bins);
        _layout.Bands.Mean(_bins, _bands);
        _recent.Add(_bands);
        var newest = Waiting();
        for (var bin = 0; bin < newest.Length; bin++)
        {
            newest[bin] = (float)_bins[bin];
        }

        _at = After();
        Ring(Waiting(), _waiting.AsSpan(After(), _bins.Length));
    }

    /// <summary>Finds where this key is the loudest.</summary>
    public void LeadOver(SpillKey[] keys)
    {
        Recent.CopyTo(Leading);
        foreach (var other in keys)
        {
            for (var band = 0; band < Leading.Length; band++)
            {
                if (other.Recent[band] > Leading[band])
                {
                    Leading[band] = 0;
                }
            }
        }
    }

    private Span<float> Waiting() => _waiting.AsSpan(_at, _bins.Length);

    private int After() => _at + _bins.Length == _waiting.Length ? 0 : _at + _bins.Length;

    private void Ring(ReadOnlySpan<float> needed, ReadOnlySpan<float> after)
    {
        for (var bin = 0; bin < needed.Length; bin++)
        {
            var ringing = Ringing[bin] * _keep;
            Ringing[bin] = Math.Max(Math.Max(needed[bin], after[bin]), ringing < Silent ? 0 : ringing);
        }
    }
}
