using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Demo.Recording;

/// <summary>A few microphones recorded together, block by block: the diffuse field's source is worked out once for all of
/// them.</summary>
internal sealed class TrackGroup
{
    private readonly IReadOnlyList<Hit> _hits;
    private readonly SoundBank _bank;
    private readonly MicrophoneTrack[] _tracks;
    private readonly PartitionedConvolver _tails;
    private readonly float[] _mix;
    private readonly double[][] _dry;
    private readonly double[][] _late;

    /// <param name="microphones">All of the kit, or all of one overdub.</param>
    /// <param name="hits">The whole performance.</param>
    /// <param name="bank">The sounds of the hits.</param>
    /// <param name="blockFrames">Length of every block.</param>
    public TrackGroup(IReadOnlyList<Microphone> microphones, IReadOnlyList<Hit> hits, SoundBank bank, int blockFrames)
    {
        _hits = [.. hits.Where(h => Overdub(h.Stroke) == microphones[0].Overdub)];
        _bank = bank;
        _tracks = [.. microphones.Select(m => new MicrophoneTrack(m, bank))];
        var responses = microphones.Select(RoomResponse.Of).ToArray();
        var longest = responses.Max(r => r.Length);
        foreach (ref var response in responses.AsSpan())
        {
            Array.Resize(ref response, longest);
        }

        _tails = new PartitionedConvolver(responses, [.. responses.Select((_, i) => new ConvolutionPath(0, i, i))], blockFrames);
        _mix = new float[blockFrames];
        _dry = [new double[blockFrames]];
        _late = [.. responses.Select(_ => new double[blockFrames])];
    }

    /// <summary>Records the next block of every microphone.</summary>
    /// <param name="start">Its first frame.</param>
    /// <param name="write">Takes the number of a microphone and its block.</param>
    public void Record(long start, Action<Microphone, AudioBlock> write)
    {
        Array.Clear(_mix);
        HitMixer.Add(_mix, start, _hits, hit => _bank[hit].Outside);
        for (var n = 0; n < _mix.Length; n++)
        {
            _dry[0][n] = _mix[n];
        }

        _tails.Process(_dry, _late);
        for (var i = 0; i < _tracks.Length; i++)
        {
            Array.Clear(_mix);
            _tracks[i].Add(_mix, start, _hits);
            _tracks[i].Finish(_mix, _late[i], start);
            write(_tracks[i].Microphone, new AudioBlock(new ReadOnlySpan<double[]>(ref _late[i]), 0, _mix.Length));
        }
    }

    private static int Overdub(Stroke stroke) => stroke switch
    {
        Stroke.Tambourine => Radiators.Tambourine.Overdub,
        Stroke.Shaker => Radiators.Shaker.Overdub,
        _ => 0,
    };
}
