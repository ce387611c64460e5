using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Dsp.Filters;

/// <summary>Bands for middle and side: a stage of two channels that hears those instead of left and right.</summary>
internal sealed class MidSideBands(IBandStage stage) : IBandStage
{
    public int LatencyFrames => stage.LatencyFrames;

    public long TailFrames => stage.TailFrames;

    public double PreRingMs => stage.PreRingMs;

    public void Process(AudioBlock block)
    {
        MidSide.Part(block[0], block[1]);
        stage.Process(block);
        MidSide.Join(block[0], block[1]);
    }
}
