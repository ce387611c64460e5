namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Tolerances of the laws over the catalogue, each with its reason.</summary>
internal static class LawTolerance
{
    /// <summary>Rounding of an offset that a curve adds and takes away again: −300 dBFS.</summary>
    public const double Silence = 1e-15;

    /// <summary>A tail is stated to about −120 dB of a sound; 10 dB of grace for sounds longer than a click.</summary>
    public const double RungOff = 3.2e-6;

    /// <summary>Filters that lean to one side move the highest sample a little.</summary>
    public const int ClickFrames = 2;
}
