using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Recording;

/// <summary>A big, heavy cone used as a microphone: it answers around its own resonance and hardly above it.</summary>
/// <remarks>The band-pass of constant peak gain, b = (α, 0, −α), α = sin ω / 2Q (Audio EQ Cookbook).</remarks>
internal static class LowTransducer
{
    // Near the kick's own pitch, where a resonance neither delays nor advances what it passes.
    private const double ResonanceHz = 50.6;
    private const double Q = 0.8;

    public static BiquadCoefficients Section { get; } = Make();

    private static BiquadCoefficients Make()
    {
        var (sin, cos) = Elementary.SinCos(2 * Math.PI * ResonanceHz / SongForm.SampleRate);
        var alpha = sin / (2 * Q);
        return BiquadCoefficients.FromDirect(alpha / (1 + alpha), 0, -alpha / (1 + alpha), -2 * cos / (1 + alpha), (1 - alpha) / (1 + alpha));
    }
}
