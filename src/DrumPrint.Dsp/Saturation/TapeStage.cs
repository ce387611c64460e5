using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Record treble, medium and playback treble of one channel, in units of the medium's field.</summary>
internal sealed class TapeStage : IOversampledStage
{
    private readonly TapeMedium _medium;
    private FirstOrder _trebleIn;
    private FirstOrder _trebleOut;

    public TapeStage(TapeEqualization equalization, int sampleRate, int oversampling)
    {
        _medium = new TapeMedium((double)sampleRate * oversampling);
        _trebleOut = equalization.TrebleOut(sampleRate);
        _trebleIn = _trebleOut.Inverse();
    }

    public void Before(PhaseBuffer doubled, int frames) => Run(ref _trebleIn, doubled, frames);

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames) => _medium.Bend(input, output, frames);

    public void After(PhaseBuffer doubled, int frames) => Run(ref _trebleOut, doubled, frames);

    private static void Run(ref FirstOrder filter, PhaseBuffer doubled, int frames)
    {
        var local = filter;
        var even = doubled.Row(0, frames);
        var odd = doubled.Row(1, frames);
        for (var n = 0; n < frames; n++)
        {
            even[n] = local.Next(even[n]);
            odd[n] = local.Next(odd[n]);
            local.Flush();
        }

        filter = local;
    }
}
