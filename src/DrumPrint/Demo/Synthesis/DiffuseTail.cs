using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>The late part of a room's response: noise that decays band by band, the top first.</summary>
/// <param name="DecayS">Decay time in the middle of the spectrum.</param>
/// <param name="StartS">When it begins.</param>
/// <param name="RiseS">Time constant of its build-up.</param>
internal sealed record DiffuseTail(double DecayS, double StartS, double RiseS)
{
    // Band edges in hertz, decay against the middle, level per hertz.
    private static readonly (double LowHz, double HighHz, double Decay, double Level)[] Bands =
    [
        (40, 250, 1.12, 1.0),
        (250, 1000, 1.02, 0.9),
        (1000, 4000, 0.98, 0.65),
        (4000, 14000, 0.80, 0.30),
    ];

    /// <summary>The response, with the sum of its squares brought to <paramref name="energy"/>.</summary>
    public double[] Make(int frames, double energy, CounterNoise noise)
    {
        var response = new double[frames];
        var start = (int)(StartS * SongForm.SampleRate);
        for (var band = 0; band < Bands.Length; band++)
        {
            var (lowHz, highHz, decay, level) = Bands[band];
            new NoiseBand(level * Math.Sqrt((highHz - lowHz) / 1000), lowHz, highHz, DecayS * decay, RiseS)
                .AddTo(response.AsSpan(start), Streams.Of(noise, band));
        }

        var sum = 0.0;
        foreach (var sample in response)
        {
            sum += sample * sample;
        }

        var gain = Math.Sqrt(energy / sum);
        foreach (ref var sample in response.AsSpan())
        {
            sample *= gain;
        }

        return response;
    }
}
