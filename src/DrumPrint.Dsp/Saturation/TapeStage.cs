using System.Numerics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Record treble, medium and playback treble of one channel, in units of the medium's field.</summary>
internal sealed class TapeStage : IOversampledStage
{
    private FirstOrder _trebleIn;
    private FirstOrder _trebleOut;
    private FirstOrder _straightener;
    private Hysteresis _medium;

    public TapeStage(TapeEqualization equalization, int sampleRate, int oversampling)
    {
        _trebleOut = equalization.TrebleOut(sampleRate);
        _trebleIn = _trebleOut.Inverse();
        _medium = TapeMedium.At((double)sampleRate * oversampling);
        _straightener = TapeMedium.Straightener((double)sampleRate * oversampling);
    }

    public void Before(PhaseBuffer doubled, int frames) => Run(ref _trebleIn, doubled, frames);

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
    {
        for (var phase = 0; phase < input.Phases; phase++)
        {
            ref var x = ref input.Samples[input.Start(phase)];
            ref var y = ref output.Samples[output.Start(phase)];
            for (var n = 0; n < frames; n += Vector<double>.Count)
            {
                Langevin.Of(Vector.LoadUnsafe(ref x, (nuint)n)).StoreUnsafe(ref y, (nuint)n);
            }
        }

        var medium = _medium;
        var straightener = _straightener;
        var fields = input.Samples;
        var samples = output.Samples;
        for (var n = 0; n < frames; n++)
        {
            var i = input.Start(0) + n;
            var o = output.Start(0) + n;
            for (var phase = 0; phase < input.Phases; phase++)
            {
                samples[o] = straightener.Next(medium.Next(fields[i], samples[o]));
                i += input.Stride;
                o += output.Stride;
            }

            medium.Flush();
            straightener.Flush();
        }

        _medium = medium;
        _straightener = straightener;
    }

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
