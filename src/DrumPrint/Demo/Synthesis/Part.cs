using DrumPrint.Demo.Kit;

namespace DrumPrint.Demo.Synthesis;

/// <summary>What one surface gives off in one stroke, dry, at a metre.</summary>
internal sealed record Part(Radiator Radiator, float[] Samples)
{
    private const int FadeFrames = 480;

    /// <summary>Rounds a rendered part to 32 bits and fades its very end, so that a cut decay never clicks.</summary>
    public static Part From(Radiator radiator, double[] samples)
    {
        var rounded = new float[samples.Length];
        for (var n = 0; n < samples.Length; n++)
        {
            rounded[n] = (float)(samples[n] * Math.Min(1, (samples.Length - n) / (double)FadeFrames));
        }

        return new Part(radiator, rounded);
    }
}
