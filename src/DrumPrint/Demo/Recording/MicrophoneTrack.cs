using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Recording;

/// <summary>One raw track: every sound of the kit as its microphone hears it, preamp and noise included.</summary>
internal sealed class MicrophoneTrack
{
    // RMS of the noise of microphone and preamp: −80 dBFS. Two uniform draws have a power of 2/3.
    private const double NoiseLevel = 1e-4 * 1.224744871391589;

    // No direct current passes a preamp.
    private const double CouplingHz = 12;

    private readonly SoundBank _bank;
    private readonly Dictionary<Sound, float[]> _heard = [];
    private readonly Dictionary<Radiator, SoundPath?> _paths = [];
    private readonly FilterCascade _electronics;
    private readonly CounterNoise _noise;
    private readonly double _gain;

    public MicrophoneTrack(Microphone microphone, SoundBank bank)
    {
        Microphone = microphone;
        _bank = bank;
        _noise = CounterNoise.FromName($"slow ferry/noise/{microphone.Name}");
        _gain = Decibels.ToGain(microphone.GainDb);
        var coupling = BiquadDesign.HighPass(CouplingHz, 1, SongForm.SampleRate);
        _electronics = new FilterCascade(microphone.IsLowTransducer ? [LowTransducer.Section, .. coupling] : coupling);
    }

    public Microphone Microphone { get; }

    /// <summary>Adds the direct sound and the early reflections of a stretch of the performance.</summary>
    public void Add(Span<float> target, long start, IReadOnlyList<Hit> hits) => HitMixer.Add(target, start, hits, Heard);

    /// <summary>Adds the early sound to the late sound, in place, and sends both through the microphone and its
    /// preamp.</summary>
    public void Finish(ReadOnlySpan<float> early, Span<double> late, long start)
    {
        for (var n = 0; n < late.Length; n++)
        {
            late[n] = _gain * (early[n] + late[n]);
        }

        _electronics.Process(late);
        for (var n = 0; n < late.Length; n++)
        {
            var counter = 2 * (start + n);
            late[n] += NoiseLevel * (_noise.Bipolar(counter) + _noise.Bipolar(counter + 1));
        }
    }

    private float[] Heard(Hit hit)
    {
        var sound = _bank[hit];
        if (!_heard.TryGetValue(sound, out var heard))
        {
            heard = Hear(sound);
            _heard.Add(sound, heard);
        }

        return heard;
    }

    private float[] Hear(Sound sound)
    {
        var ways = sound.Parts.Select(p => (Part: p, Path: PathFrom(p.Radiator))).Where(w => w.Path is not null).ToArray();
        var heard = new float[ways.Select(w => w.Part.Samples.Length + w.Path!.ExtraFrames).DefaultIfEmpty().Max()];
        foreach (var (part, path) in ways)
        {
            path!.AddTo(heard, part.Samples);
        }

        return heard;
    }

    private SoundPath? PathFrom(Radiator radiator)
    {
        if (!_paths.TryGetValue(radiator, out var path))
        {
            path = SoundPath.Between(radiator, Microphone);
            _paths.Add(radiator, path);
        }

        return path;
    }
}
