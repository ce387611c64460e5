namespace DrumPrint.Dsp.Spectral;

/// <summary>One way through a matrix of filters.</summary>
/// <param name="Input">Channel it reads.</param>
/// <param name="Filter">Filter it goes through.</param>
/// <param name="Output">Channel it adds to.</param>
public readonly record struct ConvolutionPath(int Input, int Filter, int Output);
