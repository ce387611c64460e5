using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Spill against scenes whose sources are known: made for it, and the demo session's kit.</summary>
internal static class SpillChecks
{
    public const string Note = "All at the defaults, 12 dB at most. A hit is the 60 ms from its first frame on, against the same without spill; loud ones are those within 12 dB of the loudest, ghosts lie 20 to 30 dB under it, and spill 6 dB under a hit and more lets it count. In the kit's scenes all other drums count as spill, those that no key hears as well.";

    private const string Source = "Vincent, Gribonval and Févotte, IEEE Trans. ASLP 14(4), 2006 (from memory), filters of 128 taps; own bar";
    private const int Taps = 128;

    private const string PartlyKeyed = "demo kit, rack tom, keys from snare and kick; floor tom and cymbals have none";

    private const long KitStartFrames = 177L * 48000;
    private const long KitFrames = 12L * 48000;
    private const int BlockFrames = 16384;

    private static readonly Dictionary<string, Lazy<Figures>> Measured = Scenes().ToDictionary(s => s.Name, s => new Lazy<Figures>(() => Of(s.Make())));

    public static IEnumerable<Check> All() =>
    [
        .. Measured.Keys.SelectMany(name => new Check[]
        {
            new("spill", $"{name}: how much further spill lies under the own sound", Source, Bar.AtLeast(6, "dB", 1), () => Measured[name].Value.GainDb)
            {
                Missed = name == PartlyKeyed ? "half of what the tom's microphone hears of others comes from drums that neither key stands at" : null,
            },
            new("spill", $"{name}: artefacts", Source, Bar.AtLeast(15, "dB", 1), () => Measured[name].Value.ArtefactsDb),
            new("spill", $"{name}: loud hits, worst change", "own bar", Bar.AtMost(0.5, "dB", 2), () => Math.Abs(Measured[name].Value.HitDb)),
        }),
        .. new[] { "snare with ghosts, tom 12 dB down 2 ms later, heard 20 dB down by the tom's", "snare with ghosts, kick 12 dB down, also on every backbeat" }.Select(name =>
            new Check("spill", $"{name}: ghosts, worst change", "own bar", Bar.AtMost(1, "dB", 2), () => Math.Abs(Measured[name].Value.GhostDb))),
        new("spill", "nothing asked for: samples that are changed", "own bar", Bar.Exactly(0, "samples"), () => Changed(12, Spill.Amount.To(0))),
        new("spill", "a key that hears nothing but the own drum, 14 dB down: samples that are changed", "own bar", Bar.Exactly(0, "samples"), OwnInKey),
    ];

    private static IEnumerable<(string Name, Func<SpillScene> Make)> Scenes() =>
    [
        .. SpillScene.All.Select(s => (s.Key, s.Value)),
        ("demo kit, snare, keys from hat and kick", () => Kit("SnareTop", [Stroke.Backbeat, Stroke.Ghost, Stroke.RimClick], "Hat", "KickOut")),
        (PartlyKeyed, () => Kit("RackTom", [Stroke.Rack], "SnareTop", "KickOut")),
    ];

    private static Figures Of(SpillScene scene)
    {
        var output = scene.Through();
        var separation = new Separation(scene.Own, scene.Spill, Taps);
        var before = separation.Of(scene.Mix);
        var after = separation.Of(output);
        return new(after.Interference - before.Interference, after.Artefacts, scene.WorstHitDb(output, -12, 0, clearDb: 6), scene.WorstHitDb(output, -30, -20, clearDb: 6));
    }

    private static double Changed(double spillDb, params (Dsp.Parameters.Parameter, object)[] settings)
    {
        var scene = SpillScene.SnareAndTom(2, -spillDb, -20);
        return scene.Through(settings).Zip(scene.Mix, (a, b) => a == b ? 0 : 1).Sum();
    }

    private static double OwnInKey()
    {
        var scene = SpillScene.SnareAndTom(2, -12, -20);
        var lonely = scene with { Spill = new double[scene.Own.Length], Key = [[.. scene.Own.Select(x => 0.2 * x)]] };
        return lonely.Through().Zip(lonely.Mix, (a, b) => a == b ? 0 : 1).Sum();
    }

    // Twelve seconds of the demo song with all toms, own strokes and others recorded apart.
    private static SpillScene Kit(string microphone, Stroke[] own, params string[] keys)
    {
        List<PlayedHit> hits = [.. Score.Of(SongForm.Whole)
            .Where(h => h.Frame >= KitStartFrames && h.Frame < KitStartFrames + KitFrames)
            .Select(h => h with { Frame = h.Frame - KitStartFrames, StopFrame = h.StopFrame == long.MaxValue ? long.MaxValue : h.StopFrame - KitStartFrames })];
        var bank = new SoundBank(hits, CancellationToken.None);
        double[] Heard(string name, Func<PlayedHit, bool> which)
        {
            var track = new MicrophoneTrack(Microphones.All.Single(m => m.Name == name), [.. hits.Where(which)], bank, new SoundMemory(), BlockFrames);
            var sound = new double[KitFrames];
            for (var start = 0; start < sound.Length; start += BlockFrames)
            {
                track.Next();
                track.Block[0].AsSpan(0, Math.Min(BlockFrames, sound.Length - start)).CopyTo(sound.AsSpan(start));
            }

            return sound;
        }

        bool IsOwn(PlayedHit hit) => own.Contains(hit.Stroke);
        int[] starts = [.. hits.Where(IsOwn).Select(h => (int)h.Frame).Where(at => at < KitFrames - 4800)];
        return new SpillScene(Heard(microphone, IsOwn), Heard(microphone, h => !IsOwn(h)), [.. keys.Select(k => Heard(k, _ => true))], starts);
    }

    private sealed record Figures(double GainDb, double ArtefactsDb, double HitDb, double GhostDb);
}
