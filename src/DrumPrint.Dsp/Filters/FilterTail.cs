using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Filters;

/// <summary>How long sections ring on.</summary>
public static class FilterTail
{
    // ln 10⁻⁷: −140 dB, so that resonant gain and repeated poles still end below −120 dB.
    private const double LogFloor = -16.118095650958320;

    // −105 dB.
    private const double LeastSum = 5.6e-6;

    /// <summary>Frames after which the sections, one after another, have rung off to about −120 dB; an upper bound.</summary>
    public static long Frames(IEnumerable<BiquadCoefficients> sections) =>
        sections.Sum(s => (long)Math.Ceiling(LogFloor / LogPoleRadius(s)));

    /// <summary>Frames after which all that is still to come of an impulse through the sections, one after another, sums to less than −105 dB
    /// in magnitude. What lies further back changes a signal at full scale by less than that.</summary>
    public static long FramesOfSum(IReadOnlyList<BiquadCoefficients> sections)
    {
        ArgumentNullException.ThrowIfNull(sections);
        var response = new double[Frames(sections) + 1];
        response[0] = 1;
        new FilterCascade(sections).Process(response);
        var (left, frame) = (0.0, response.Length);
        while (frame > 0 && left < LeastSum)
        {
            left += Math.Abs(response[--frame]);
        }

        return frame + 1;
    }

    private static double LogPoleRadius(BiquadCoefficients section)
    {
        var discriminant = (section.D1 * section.D1) - (4 * section.D2);
        var radius = discriminant < 0
            ? Math.Sqrt(section.A2)
            : Math.Max(Math.Abs(1 - ((section.D1 + Math.Sqrt(discriminant)) / 2)), Math.Abs(1 - (2 * section.D2 / (section.D1 + Math.Sqrt(discriminant)))));
        return Elementary.Log(Math.Max(radius, 1e-3));
    }
}
