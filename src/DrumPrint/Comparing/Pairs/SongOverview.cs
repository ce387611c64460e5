using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;

namespace DrumPrint.Comparing.Pairs;

/// <summary>One print from the song's first frame to its last, in both sides and at true level: what a passage of seconds
/// cannot show.</summary>
/// <param name="Title">The print.</param>
/// <param name="ToS">Length in seconds.</param>
/// <param name="PeaksA">Largest sample of A in each of equal stretches, linear.</param>
/// <param name="PeaksB">The same of B.</param>
/// <param name="Sections">Loudness by section; empty where sections are unknown.</param>
/// <param name="GainReductions">What each processor turned down at most in each stretch, in dB.</param>
public sealed record SongOverview(
    string Title,
    double ToS,
    IReadOnlyList<double> PeaksA,
    IReadOnlyList<double> PeaksB,
    IReadOnlyList<SectionLoudness> Sections,
    IReadOnlyList<GainReductionCurve> GainReductions)
{
    // As many as a screen is wide.
    private const int Stretches = 600;

    /// <summary>Looks over both sides, read piece by piece.</summary>
    internal static SongOverview Of(string title, SideFile a, SideFile b, TempoMap? tempo)
    {
        var rate = a.Info.SampleRate;
        var end = Math.Max(a.EndFrame, b.EndFrame);
        var sections = new List<SectionLoudness>();
        for (var i = 0; tempo is not null && i < tempo.Sections.Count; i++)
        {
            var section = tempo.Sections[i];
            var from = (long)Math.Round(tempo.SecondsAtBar(section.FromBar) * rate);
            var to = i + 1 < tempo.Sections.Count ? (long)Math.Round(tempo.SecondsAtBar(tempo.Sections[i + 1].FromBar) * rate) : end;
            (from, to) = (Math.Clamp(from, 0, end), Math.Clamp(to, 0, end));
            if (to > from)
            {
                var (soundA, soundB) = Sound.Together(a.Read(from, (int)(to - from)), b.Read(from, (int)(to - from)));
                sections.Add(new SectionLoudness(section.Name, section.FromBar, (double)from / rate, (double)to / rate, SideMeasures.Loudness(soundA), SideMeasures.Loudness(soundB)));
            }
        }

        // Where some work differently in the sides, those that do not have nothing to show.
        var working = PairMeasurement.Curves(a, b, 0, (int)end, rate).Select(Coarse).Where(c => c.IsAtWork).ToList();
        var telling = working.Where(c => c.IsWorthTelling).ToList();
        return new SongOverview(title, (double)end / rate, Peaks(a, end), Peaks(b, end), sections, telling.Count > 0 ? telling : working);
    }

    private static double[] Peaks(SideFile side, long end)
    {
        var peaks = new double[Stretches];
        var piece = side.Info.SampleRate * 20;
        for (var start = 0L; start < end; start += piece)
        {
            var sound = side.Read(start, (int)Math.Min(piece, end - start));
            foreach (var channel in sound.Channels)
            {
                for (var n = 0; n < channel.Length; n++)
                {
                    var at = (int)((start + n) * Stretches / end);
                    peaks[at] = Math.Max(peaks[at], Math.Abs(channel[n]));
                }
            }
        }

        return peaks;
    }

    private static GainReductionCurve Coarse(GainReductionCurve curve)
    {
        var count = Math.Max(curve.A?.Count ?? 0, curve.B?.Count ?? 0);
        return curve with { StepS = curve.StepS * count / Stretches, A = Coarse(curve.A), B = Coarse(curve.B) };
    }

    private static double[]? Coarse(IReadOnlyList<double>? values)
    {
        if (values is null)
        {
            return null;
        }

        var most = new double[Stretches];
        for (var i = 0; i < values.Count; i++)
        {
            var at = (int)((long)i * Stretches / values.Count);
            most[at] = Math.Max(most[at], values[i]);
        }

        return most;
    }
}

/// <summary>How loud both sides are in one section of the song.</summary>
/// <param name="Name">The section.</param>
/// <param name="FromBar">Its first bar.</param>
/// <param name="FromS">Its start in seconds of the song.</param>
/// <param name="ToS">Its end.</param>
/// <param name="ALufs">Gated loudness of A; −∞ without a reading.</param>
/// <param name="BLufs">The same of B.</param>
public sealed record SectionLoudness(string Name, int FromBar, double FromS, double ToS, double ALufs, double BLufs);
