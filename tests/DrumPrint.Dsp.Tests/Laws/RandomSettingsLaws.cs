using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>Every processor at settings, rates and signals drawn at random; a failure is shrunk and its seed shown.</summary>
public sealed class RandomSettingsLaws
{
    private const int Frames = 1200;

    [Property(MaxTest = 300)]
    public Property Whatever_goes_in_a_number_comes_out() => Prop.ForAll(Draws(), draw =>
    {
        var definition = Catalogue.All[draw.Processor % Catalogue.All.Count];
        var one = LawCase.Drawn(definition, (ulong)draw.Seed, draw.Rate);
        if (one is null)
        {
            return true;
        }

        var signal = Signal(draw.Signal);
        return one.Run([signal, signal], 1 + (draw.Seed % 700)).All(channel => Array.TrueForAll(channel, double.IsFinite));
    });

    private static Arbitrary<Draw> Draws() => Arb.From(
        from processor in Gen.Choose(0, 1000)
        from seed in Gen.Choose(1, 1_000_000)
        from rate in Gen.Choose(8000, 384000)
        from signal in Gen.Choose(0, 6)
        select new Draw(processor, seed, rate, signal));

    private static double[] Signal(int kind) => kind switch
    {
        0 => Signals.Silence(Frames),
        1 => [.. Enumerable.Repeat(1.0, Frames)],
        2 => [.. Enumerable.Range(0, Frames).Select(n => n / 50 % 2 == 0 ? 1.0 : -1)],
        3 => Signals.Impulse(Frames, at: 100),
        4 => Signals.Noise(Frames, 10, 1e-310),
        5 => [.. Signals.Noise(Frames, 12).Select((x, n) => n < 300 ? 8 * x : 0)],
        _ => Signals.Noise(Frames, 10),
    };

    private sealed record Draw(int Processor, int Seed, int Rate, int Signal);
}
