using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Session;

/// <summary>What of a long file is held in memory: whole seconds, and one more at either end, of what its layers play.</summary>
/// <remarks>Whole seconds are whole frames at every rate, so what is cut off moves nothing between frames.</remarks>
/// <param name="FromS">Where it begins.</param>
/// <param name="ToS">Where it ends, or the file before.</param>
internal readonly record struct SoundStretch(int FromS, int ToS)
{
    /// <summary>The longest that is held, and the longest file that is held whole.</summary>
    public const int MostS = 60;

    private const int MarginS = 1;

    /// <summary>Whether it is held at all.</summary>
    public bool Fits => ToS - FromS <= MostS + (2 * MarginS);

    /// <summary>The stretch of an impulse that is played; null where some processor needs all of it. What none plays, such as that of a layer turned
    /// off, is held no longer than a moment.</summary>
    public static SoundStretch? Of(Chain chain, string impulse)
    {
        List<Stage> stages = [.. chain.Buses.SelectMany(b => b.Stages).Concat(chain.DrumBus).Where(s => s.Definition.Parameters.OfType<ImpulseParameter>().Any(p => s.Settings[p] == impulse))];
        if (stages.Count == 0)
        {
            return new SoundStretch(0, MarginS);
        }

        if (stages.Exists(s => !s.Definition.Parameters.Contains(Layer.To) || s.Settings.Find(Layer.To) is null))
        {
            return null;
        }

        var (from, to) = (stages.Min(s => s.Settings[Layer.From]), stages.Max(s => s.Settings.Find(Layer.To)!.Value));
        return new SoundStretch(Math.Max(0, (int)Math.Floor(from) - MarginS), (int)Math.Ceiling(to) + MarginS);
    }
}
