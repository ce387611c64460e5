using DrumPrint.Demo.Kit;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Sticks clicked together, tambourine and shaker.</summary>
internal static class HandPercussion
{
    public static Sound MakeSticks(CounterNoise noise)
    {
        var click = new double[4800];
        Mode.Ring(click, 0.20, 2150 * (1 + (0.02 * noise.Bipolar(1))), 0.035);
        Mode.Ring(click, 0.12, 3420, 0.030);
        Mode.Ring(click, 0.06, 5100, 0.022);
        new NoiseBand(0.08, 1500, 9000, 0.008).AddTo(click, Streams.Of(noise, 1));
        return new Sound([Part.From(Radiators.Sticks, click)]);
    }

    /// <summary>A shake is a handful of jingle pairs that clash one after another.</summary>
    public static Sound MakeTambourine(double softness, CounterNoise noise)
    {
        var jingles = new double[14400];
        for (var clash = 0; clash < 5; clash++)
        {
            var start = clash == 0 ? 0 : (int)(1400 * noise.Unit(clash));
            var target = jingles.AsSpan(start);
            var level = (clash == 0 ? 1 : 0.3 + (0.4 * noise.Unit(10 + clash))) * (1 - (0.3 * softness));
            for (var i = 0; i < 8; i++)
            {
                var freqHz = 4300 + (1250 * i) + (300 * noise.Bipolar(20 + (8 * clash) + i));
                Mode.Ring(target, 0.05 * level, freqHz, 0.24 - (0.015 * i));
            }

            new NoiseBand(0.06 * level, 5000, 14000, 0.10).AddTo(target, Streams.Of(noise, clash));
        }

        new NoiseBand(0.05, 300, 1200, 0.04).AddTo(jingles, Streams.Of(noise, 9));
        return new Sound([Part.From(Radiators.Tambourine, jingles)]);
    }

    public static Sound MakeShaker(CounterNoise noise)
    {
        var grains = new double[9600];
        new NoiseBand(0.10, 3500, 13000, 0.14, 0.018).AddTo(grains, Streams.Of(noise, 1));
        return new Sound([Part.From(Radiators.Shaker, grains)]);
    }
}
