namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Measures single frequencies of a signal by direct summation, independent of the project's own transforms.</summary>
internal static class Spectrum
{
    /// <summary>Complex response of an impulse response at a frequency.</summary>
    public static System.Numerics.Complex ResponseAt(ReadOnlySpan<double> impulseResponse, double freqHz, int sampleRate = Run.SampleRate)
    {
        var sum = System.Numerics.Complex.Zero;
        for (var n = 0; n < impulseResponse.Length; n++)
        {
            sum += impulseResponse[n] * System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * freqHz * n / sampleRate);
        }

        return sum;
    }

    /// <summary>Amplitude of a sine at a frequency that fits the stretch a whole number of times.</summary>
    public static double AmplitudeAt(ReadOnlySpan<double> signal, double freqHz, int sampleRate = Run.SampleRate) =>
        2 * ResponseAt(signal, freqHz, sampleRate).Magnitude / signal.Length;

    public static double Decibels(double ratio) => 20 * Math.Log10(ratio);
}
