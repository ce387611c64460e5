using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Dry sounds of every stroke a performance needs, at several strengths and in several takes.</summary>
internal sealed class SoundBank
{
    private const int SoftestLayer = 4;
    private const double LayerDb = 6;

    private readonly Dictionary<(Stroke, int Layer, int Take), KitSound> _sounds = [];

    /// <summary>Makes the sounds that some hits need.</summary>
    public SoundBank(IReadOnlyList<PlayedHit> hits, CancellationToken cancel)
    {
        var keys = hits.Select(Key).Distinct().ToArray();
        var sounds = new KitSound[keys.Length];
        Parallel.For(0, keys.Length, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i => sounds[i] = Make(keys[i]));
        for (var i = 0; i < keys.Length; i++)
        {
            _sounds[keys[i]] = sounds[i];
        }
    }

    public KitSound this[PlayedHit hit] => _sounds[Key(hit)];

    private static (Stroke, int Layer, int Take) Key(PlayedHit hit) =>
        (hit.Stroke, (int)Math.Clamp(Math.Round(-hit.LevelDb / LayerDb), 0, SoftestLayer), hit.Take);

    private static KitSound Make((Stroke Stroke, int Layer, int Take) key)
    {
        var (stroke, layer, take) = key;
        var noise = CounterNoise.FromName($"slow ferry/sound/{stroke}/{layer}/{take}");
        var softness = layer / (double)SoftestLayer;
        return stroke switch
        {
            Stroke.Kick => KickSound.Make(softness, noise),
            Stroke.Backbeat or Stroke.Ghost => SnareSound.Make(softness, noise),
            Stroke.RimClick => SnareSound.MakeRimClick(noise),
            Stroke.HatClosed => Cymbals.HatClosed.Make(softness, noise),
            Stroke.HatOpen => Cymbals.HatOpen.Make(softness, noise),
            Stroke.HatFoot => Cymbals.HatFoot.Make(softness, noise),
            Stroke.Rack => TomSound.MakeRack(softness, noise),
            Stroke.Floor => TomSound.MakeFloor(softness, noise),
            Stroke.Ride => Cymbals.Ride.Make(softness, noise),
            Stroke.Crash => Cymbals.Crash.Make(softness, noise),
            Stroke.Sticks => HandPercussion.MakeSticks(noise),
            Stroke.Cabasa => HandPercussion.MakeCabasa(softness, noise),
            _ => HandPercussion.MakeClaps(noise),
        };
    }
}
