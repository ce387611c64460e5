namespace DrumPrint.Dsp;

/// <summary>Sample rate in hertz and number of channels of a signal.</summary>
public readonly record struct AudioFormat(int SampleRate, int Channels);
