using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Sticks clicked together, a cabasa, and claps of two people.</summary>
internal static class HandPercussion
{
    // Rows of beads that pass one flute, and how long the wrist takes for it.
    private const int BeadTicks = 26;
    private const double BeadTurnS = 0.085;
    private const double BeadLowHz = 4200;
    private const double BeadHighHz = 15000;

    public static KitSound MakeSticks(CounterNoise noise)
    {
        var click = new double[4800];
        Mode.Ring(click, 0.20, 2150 * (1 + (0.02 * noise.Bipolar(1))), 0.035);
        Mode.Ring(click, 0.12, 3420, 0.030);
        Mode.Ring(click, 0.06, 5100, 0.022);
        new NoiseBand(0.08, 1500, 9000, 0.008).AddTo(click, Streams.Of(noise, 1));
        return new KitSound([Part.From(Radiators.Sticks, click)]);
    }

    /// <summary>Rows of steel beads dragged a short way round a fluted cylinder. Each row ticks as it drops into the next
    /// flute. The ticks come ever faster and then slower, with the turn of the wrist.</summary>
    public static KitSound MakeCabasa(double softness, CounterNoise noise)
    {
        var beads = new double[9600];
        var filters = NoiseBand.Filters(BeadLowHz, BeadHighHz);
        var reach = BeadTicks - (int)(8 * softness);
        for (var tick = 0; tick < reach; tick++)
        {
            // A turn that starts and ends at rest: its speed is half a sine.
            var turned = (tick + 0.5) / reach;
            var seconds = BeadTurnS * TurnTime(turned);
            var start = (int)((seconds + (0.0006 * noise.Bipolar(tick))) * SongForm.SampleRate);
            var target = beads.AsSpan(Math.Max(0, start));
            var speed = Elementary.Sin(Math.PI * TurnTime(turned));
            new NoiseBand(0.10 * speed * (1 + (0.3 * noise.Bipolar(100 + tick))), BeadLowHz, BeadHighHz, 0.018).AddTo(target, Streams.Of(noise, tick), filters);
            Mode.Ring(target, 0.020 * speed, 6100 + (900 * noise.Bipolar(200 + tick)), 0.03);
        }

        // The cylinder itself.
        Mode.Ring(beads, 0.012, 2350, 0.05);
        return new KitSound([Part.From(Radiators.Cabasa, beads)]);
    }

    /// <summary>Two people clap, a few thousandths of a second apart, each with hands of their own.</summary>
    public static KitSound MakeClaps(CounterNoise noise) => new(
    [
        Part.From(Radiators.ClapsLeft, Clap(1050, 0.004 * noise.Unit(1), Streams.Of(noise, 1))),
        Part.From(Radiators.ClapsRight, Clap(1320, 0.004 + (0.008 * noise.Unit(2)), Streams.Of(noise, 2))),
    ]);

    // The air between the palms is pressed out at the fingers and rings in their hollow.
    private static double[] Clap(double hollowHz, double lateS, CounterNoise noise)
    {
        var clap = new double[7200];
        var target = clap.AsSpan((int)(lateS * SongForm.SampleRate));
        var hollow = hollowHz * (1 + (0.08 * noise.Bipolar(1)));
        new NoiseBand(0.30, 0.7 * hollow, 1.6 * hollow, 0.045, 0.0004).AddTo(target, Streams.Of(noise, 1));
        new NoiseBand(0.16, 1800, 7000, 0.030, 0.0002).AddTo(target, Streams.Of(noise, 2));
        Mode.Ring(target, 0.10, hollow, 0.035);
        return clap;
    }

    // When a turn whose speed is half a sine has come so far: its angle is (1 − cos πt) / 2.
    private static double TurnTime(double turned) => 2 / Math.PI * Elementary.Atan(Math.Sqrt(turned / (1 - turned)));
}
