using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Demo.Recording;

/// <summary>One raw track, block by block: every stroke as its microphone hears it, with the room's answer, the preamp and
/// the noise.</summary>
internal sealed class MicrophoneTrack
{
    // RMS of the noise of microphone and preamp: −80 dBFS, own choice, a quiet room at the gain a drum needs. Two uniform draws have a power of 2/3.
    private const double NoiseLevel = 1e-4 * 1.224744871391589;

    // No direct current passes a preamp.
    private const double CouplingHz = 12;

    private readonly KitMicrophone _microphone;
    private readonly IReadOnlyList<PlayedHit> _hits;
    private readonly SoundBank _bank;
    private readonly SoundMemory _memory;
    private readonly Dictionary<KitSound, ReadOnlyMemory<float>> _heard = [];
    private readonly Dictionary<Radiator, SoundPath?> _paths = [];
    private readonly PartitionedConvolver _room;
    private readonly FilterCascade _electronics;
    private readonly CounterNoise _noise;
    private readonly double _gain;
    private readonly float[] _mix;
    private readonly double[][] _dry;
    private readonly double[][] _block;
    private long _frame;

    /// <param name="microphone">Whose track it is.</param>
    /// <param name="hits">The whole performance.</param>
    /// <param name="bank">The sounds of the hits.</param>
    /// <param name="memory">Where this track alone keeps its sounds.</param>
    /// <param name="blockFrames">Length of every block.</param>
    public MicrophoneTrack(KitMicrophone microphone, IReadOnlyList<PlayedHit> hits, SoundBank bank, SoundMemory memory, int blockFrames)
    {
        _microphone = microphone;
        _hits = [.. hits.Where(h => bank[h].Parts.Any(p => p.Radiator.Overdub == microphone.Overdub))];
        _bank = bank;
        _memory = memory;
        _room = new PartitionedConvolver([RoomResponse.Of(microphone)], [new ConvolutionPath(0, 0, 0)], blockFrames);
        var coupling = BiquadDesign.HighPass(CouplingHz, 1, SongForm.SampleRate);
        _electronics = new FilterCascade(microphone.IsLowTransducer ? [LowTransducer.Section, .. coupling] : coupling);
        _noise = CounterNoise.FromName($"slow ferry/noise/{microphone.Name}");
        _gain = Decibels.ToGain(microphone.GainDb);
        _mix = new float[blockFrames];
        _dry = [new double[blockFrames]];
        _block = [new double[blockFrames]];
    }

    /// <summary>The block recorded last: one channel.</summary>
    public double[][] Block => _block;

    /// <summary>Records the next block.</summary>
    public void Next()
    {
        Mix(hit => _bank[hit].Outside);
        for (var n = 0; n < _mix.Length; n++)
        {
            _dry[0][n] = _mix[n];
        }

        _room.Process(_dry, _block);
        Mix(Heard);
        var block = _block[0];
        for (var n = 0; n < block.Length; n++)
        {
            block[n] = _gain * (_mix[n] + block[n]);
        }

        _electronics.Process(block);
        for (var n = 0; n < block.Length; n++)
        {
            var counter = 2 * (_frame + n);
            block[n] += NoiseLevel * (_noise.Bipolar(counter) + _noise.Bipolar(counter + 1));
        }

        _frame += block.Length;
    }

    private void Mix(Func<PlayedHit, ReadOnlyMemory<float>> soundOf)
    {
        Array.Clear(_mix);
        HitMixer.Add(_mix, _frame, _hits, soundOf);
    }

    // Direct sound and early reflections of a stroke at full level, worked out when it first comes.
    private ReadOnlyMemory<float> Heard(PlayedHit hit)
    {
        var sound = _bank[hit];
        if (!_heard.TryGetValue(sound, out var heard))
        {
            heard = Hear(sound);
            _heard.Add(sound, heard);
        }

        return heard;
    }

    private ReadOnlyMemory<float> Hear(KitSound sound)
    {
        var ways = sound.Parts.Select(p => (Part: p, Path: PathFrom(p.Radiator))).Where(w => w.Path is not null).ToArray();
        var frames = ways.Select(w => w.Part.Samples.Length + w.Path!.ExtraFrames).DefaultIfEmpty().Max();
        var heard = _memory.Take(frames);
        foreach (var (part, path) in ways)
        {
            path!.AddTo(heard.Span, part.Samples);
        }

        return heard;
    }

    private SoundPath? PathFrom(Radiator radiator)
    {
        if (!_paths.TryGetValue(radiator, out var path))
        {
            path = SoundPath.Between(radiator, _microphone);
            _paths.Add(radiator, path);
        }

        return path;
    }
}
