namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Measures single frequencies of a signal by direct summation, independent of the project's own transforms.</summary>
internal static class Spectrum
{
    private const int StretchFrames = 128;

    /// <summary>Complex response of an impulse response at a frequency.</summary>
    public static System.Numerics.Complex ResponseAt(ReadOnlySpan<double> impulseResponse, double freqHz, int sampleRate = Run.SampleRate)
    {
        // The turns of a stretch are the same from stretch to stretch, but for where each begins.
        var perFrame = -2 * Math.PI * freqHz / sampleRate;
        Span<System.Numerics.Complex> turns = stackalloc System.Numerics.Complex[Math.Min(StretchFrames, impulseResponse.Length)];
        for (var n = 0; n < turns.Length; n++)
        {
            turns[n] = System.Numerics.Complex.FromPolarCoordinates(1, perFrame * n);
        }

        var sum = System.Numerics.Complex.Zero;
        for (var start = 0; start < impulseResponse.Length; start += StretchFrames)
        {
            var part = System.Numerics.Complex.Zero;
            for (var n = 0; n < Math.Min(StretchFrames, impulseResponse.Length - start); n++)
            {
                part += impulseResponse[start + n] * turns[n];
            }

            sum += part * System.Numerics.Complex.FromPolarCoordinates(1, perFrame * start);
        }

        return sum;
    }

    /// <summary>Amplitude of a sine at a frequency that fits the stretch a whole number of times.</summary>
    public static double AmplitudeAt(ReadOnlySpan<double> signal, double freqHz, int sampleRate = Run.SampleRate) =>
        2 * ResponseAt(signal, freqHz, sampleRate).Magnitude / signal.Length;

    public static double Decibels(double ratio) => 20 * Math.Log10(ratio);
}
