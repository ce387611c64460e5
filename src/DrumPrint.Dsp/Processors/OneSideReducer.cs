using DrumPrint.Dsp.Metering;

namespace DrumPrint.Dsp.Processors;

/// <summary>The same for a processor that moves the gain: its curve is that of the part it works on.</summary>
internal sealed class OneSideReducer(IProcessor processor, IGainReducer reducer, string side) : OneSide(processor, side), IGainReducer
{
    public GainCurve GainCurve => reducer.GainCurve;
}
