using DrumPrint.Demo.Kit;

namespace DrumPrint.Demo.Synthesis;

/// <summary>One stroke as every surface of the kit gives it off.</summary>
internal sealed class KitSound
{
    public KitSound(IReadOnlyList<Part> parts)
    {
        Parts = parts;
        Outside = new float[parts.Max(p => p.Samples.Length)];
        foreach (var part in parts.Where(p => p.Radiator.Face is Face.Open or Face.KickFront or Face.KickBack))
        {
            for (var n = 0; n < part.Samples.Length; n++)
            {
                Outside[n] += part.Samples[n];
            }
        }
    }

    public IReadOnlyList<Part> Parts { get; }

    /// <summary>What goes out into the room, all surfaces together: the source of the diffuse field.</summary>
    public float[] Outside { get; }
}
