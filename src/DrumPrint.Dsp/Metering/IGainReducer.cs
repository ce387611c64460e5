namespace DrumPrint.Dsp.Metering;

/// <summary>A processor whose gain moves with the signal and is worth reporting.</summary>
public interface IGainReducer
{
    /// <summary>The gain over time, filled while the processor runs.</summary>
    GainCurve GainCurve { get; }
}
