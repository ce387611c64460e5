namespace DrumPrint.Dsp.Resampling;

/// <summary>The weights of a rate filter for every place an output sample can have between two input samples.</summary>
internal interface IPhases
{
    /// <summary>Sum of the inputs from <paramref name="inputs"/> on, weighted for the given phase.</summary>
    double Sum(ReadOnlySpan<double> inputs, int phase);
}
