using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Noise between two frequencies that swells and dies away.</summary>
/// <param name="Level">RMS that it would have if it neither swelled nor decayed.</param>
/// <param name="LowHz">Lower corner, 12 dB per octave.</param>
/// <param name="HighHz">Upper corner, 12 dB per octave.</param>
/// <param name="DecayS">Decay time.</param>
/// <param name="RiseS">Time constant of the swell; 0 starts at once.</param>
internal readonly record struct NoiseBand(double Level, double LowHz, double HighHz, double DecayS, double RiseS = 0)
{
    private const double Inaudible = 1e-5;

    /// <summary>The filters of a band, for whoever adds many noises in the same one.</summary>
    public static BiquadCoefficients[] Filters(double lowHz, double highHz) =>
    [
        .. BiquadDesign.HighPass(lowHz, 2, SongForm.SampleRate),
        .. BiquadDesign.LowPass(highHz, 2, SongForm.SampleRate),
    ];

    /// <summary>Adds the noise.</summary>
    public void AddTo(Span<double> target, CounterNoise noise) => AddTo(target, noise, Filters(LowHz, HighHz));

    /// <summary>Adds the noise.</summary>
    /// <param name="target">What it is added to.</param>
    /// <param name="noise">What it is made of.</param>
    /// <param name="filters">Those of its band.</param>
    public void AddTo(Span<double> target, CounterNoise noise, ReadOnlySpan<BiquadCoefficients> filters)
    {
        // Uniform noise from −1 to 1 has a power of 1/3, spread evenly up to half the rate.
        var gain = Level * Math.Sqrt(3 * SongForm.SampleRate / 2.0 / (HighHz - LowHz));
        var band = new FilterCascade([.. filters]);
        var fall = Decay.PerFrame(DecayS);
        var rise = RiseS > 0 ? Elementary.Exp(-1 / (RiseS * SongForm.SampleRate)) : 0;
        var falling = gain;
        var missing = rise;
        for (var n = 0; n < target.Length && falling > Inaudible; n++)
        {
            target[n] += band.Next(noise.Bipolar(n)) * falling * (1 - missing);
            falling *= fall;
            missing *= rise;
        }
    }
}
