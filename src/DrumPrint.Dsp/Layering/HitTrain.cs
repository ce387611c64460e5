using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Layering;

/// <summary>A signal that is nothing but a click of its own height at each hit, whole frames or not.</summary>
/// <remarks>A click between frames is a windowed sinc (Kaiser, 150 dB), right to nine tenths of half the rate, as in
/// <see cref="FractionalDelay"/>. A filter then makes a sound of each, however many overlap.</remarks>
internal sealed class HitTrain
{
    private const double AttenuationDb = 150;
    private const double Transition = 0.1;
    private const double WholeFrame = 1e-6;

    private readonly double[] _ring;
    private readonly double[] _taps = new double[2 * SincKernel.Half(AttenuationDb, Transition)];
    private readonly long _mask;
    private readonly int _delay;
    private long _frame;

    /// <param name="delayFrames">Frames after which a click comes out.</param>
    /// <param name="stretchFrames">Longest stretch taken out at once.</param>
    public HitTrain(int delayFrames, int stretchFrames)
    {
        _delay = delayFrames;
        var room = 1L;
        while (room < delayFrames + stretchFrames + _taps.Length)
        {
            room *= 2;
        }

        (_ring, _mask) = (new double[room], room - 1);
    }

    /// <summary>Frames that a click reaches to either side.</summary>
    public static int Reach => SincKernel.Half(AttenuationDb, Transition);

    /// <summary>Puts a click in. All of it must lie no earlier than what comes out next.</summary>
    public void Add(double frame, double height)
    {
        var whole = (long)Math.Floor(frame);
        var part = frame - whole;
        if (part < WholeFrame || part > 1 - WholeFrame)
        {
            _ring[(part > WholeFrame ? whole + 1 : whole) & _mask] += height;
            return;
        }

        var half = _taps.Length / 2;
        SincKernel.Fill(_taps, half - 1 + part, AttenuationDb);
        for (var i = 0; i < _taps.Length; i++)
        {
            _ring[(whole - half + 1 + i) & _mask] += height * _taps[i];
        }
    }

    /// <summary>Takes the next stretch out.</summary>
    public void Take(Span<double> samples)
    {
        foreach (ref var sample in samples)
        {
            ref var held = ref _ring[(_frame++ - _delay) & _mask];
            (sample, held) = (held, 0);
        }
    }
}
