using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Kit;

/// <summary>The recording room: a box of 4.4 × 6.6 × 2.7 m and what its walls give back.</summary>
/// <remarks>Image sources: J. B. Allen and D. A. Berkley, Image method for efficiently simulating small-room acoustics,
/// J. Acoust. Soc. Am. 65, 1979. Level of the diffuse field: M. Barron and L.-J. Lee, Energy relations in concert
/// auditoriums, J. Acoust. Soc. Am. 84, 1988 (both from memory).</remarks>
internal static class Room
{
    public const double SpeedOfSound = 343.2;
    public const double DecayS = 0.45;
    public const double HallDecayS = 1.3;

    private const double Volume = 4.4 * 6.6 * 2.7;

    // The wall at each end of each axis, and the part of the amplitude it reflects: wood floor, absorber behind the drummer.
    private static readonly (double At, double Reflection)[][] Walls =
    [
        [(-2.1, 0.80), (2.3, 0.80)],
        [(-1.4, 0.45), (5.2, 0.75)],
        [(-0.66, 0.85), (2.04, 0.70)],
    ];

    /// <summary>Energy of the diffuse field at a distance, against direct sound at 1 m.</summary>
    public static double DiffuseEnergy(double distance) =>
        312 * DecayS / Volume * Elementary.Exp(-0.04 * distance / DecayS);

    /// <summary>The mirror images of a place, with the amplitude left after one or two walls.</summary>
    public static IEnumerable<(KitPoint Image, double Amplitude, int Order)> Images(KitPoint source, int order)
    {
        for (var axis = 0; axis < 3; axis++)
        {
            for (var end = 0; end < 2; end++)
            {
                var (first, amplitude) = Mirror(source, axis, end);
                yield return (first, amplitude, 1);
                if (order < 2)
                {
                    continue;
                }

                // A pair of walls at right angles gives one image whichever comes first; opposite walls give two.
                for (var other = axis; other < 3; other++)
                {
                    for (var otherEnd = 0; otherEnd < 2; otherEnd++)
                    {
                        if (other != axis || otherEnd != end)
                        {
                            var (second, again) = Mirror(first, other, otherEnd);
                            yield return (second, amplitude * again, 2);
                        }
                    }
                }
            }
        }
    }

    private static (KitPoint Image, double Amplitude) Mirror(KitPoint place, int axis, int end)
    {
        var (at, reflection) = Walls[axis][end];
        var image = axis switch
        {
            0 => place with { X = (2 * at) - place.X },
            1 => place with { Y = (2 * at) - place.Y },
            _ => place with { Z = (2 * at) - place.Z },
        };
        return (image, reflection);
    }
}
