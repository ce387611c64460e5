using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>The late part of a room's response: noise that decays band by band, the top first.</summary>
/// <param name="DecayS">Decay time in the middle of the spectrum.</param>
/// <param name="StartS">When it begins.</param>
/// <param name="RiseS">Time constant of its build-up.</param>
internal sealed record DiffuseTail(double DecayS, double StartS, double RiseS)
{
    // Band edges in hertz, decay against the middle, level: walls and air take the top.
    private static readonly (double LowHz, double HighHz, double Decay, double Level)[] Bands =
    [
        (40, 250, 1.12, 1.0),
        (250, 1000, 1.02, 1.0),
        (1000, 4000, 0.98, 0.8),
        (4000, 14000, 0.80, 0.45),
    ];

    private static readonly BiquadCoefficients[][] Filters = [.. Bands.Select(b => NoiseBand.Filters(b.LowHz, b.HighHz))];

    /// <summary>Adds the response.</summary>
    /// <param name="response">What it is added to.</param>
    /// <param name="energy">Its energy in a band that loses nothing, against a single full-scale frame.</param>
    /// <param name="noise">What it is made of.</param>
    public void AddTo(Span<double> response, double energy, CounterNoise noise)
    {
        var start = (int)(StartS * SongForm.SampleRate);
        for (var band = 0; band < Bands.Length; band++)
        {
            var (lowHz, highHz, decay, level) = Bands[band];
            var power = energy / Decay.Energy(DecayS) * (highHz - lowHz) / (SongForm.SampleRate / 2.0);
            new NoiseBand(level * Math.Sqrt(power), lowHz, highHz, DecayS * decay, RiseS).AddTo(response[start..], Streams.Of(noise, band), Filters[band]);
        }
    }
}
