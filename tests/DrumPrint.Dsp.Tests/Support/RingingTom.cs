using DrumPrint.Dsp.Processors;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A tom with one note that rings 12 dB too loud; invented.</summary>
public static class RingingTom
{
    public const double RingHz = 180;

    /// <summary>One second: a stick, the tom's own note at 110 Hz, and the ring.</summary>
    public static double[] Samples(int rate) => [.. Stick(rate).Zip(Ring(rate), (a, b) => a + b)];

    /// <summary>Stick and own note alone.</summary>
    public static double[] Stick(int rate)
    {
        var noise = Signals.Noise(rate, 21);
        return [.. Enumerable.Range(0, rate).Select(n => (0.25 * noise[n] * Math.Exp(-n / (0.004 * rate))) + (0.08 * Math.Exp(-n / (0.15 * rate)) * Math.Sin(2 * Math.PI * 110 * n / rate)))];
    }

    /// <summary>The ring alone.</summary>
    public static double[] Ring(int rate) =>
        [.. Enumerable.Range(0, rate).Select(n => 0.32 * Math.Exp(-n / (0.2 * rate)) * (1 - Math.Exp(-n / (0.01 * rate))) * Math.Sin(2 * Math.PI * RingHz * n / rate))];

    /// <summary>What the guide sets against it.</summary>
    public static ProcessorStep Tamer()
    {
        var bell = DynamicEq.Bell;
        return DynamicEq.Definition.With(DynamicEq.Bands.To(bell.With((bell.Freq, RingHz), (bell.Q!, 4.0), (bell.Threshold, -30.0), (bell.Ratio, 4.0), (bell.Attack, 8.0), (bell.Release, 150.0))));
    }
}
