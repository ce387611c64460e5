using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Saturation;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Processors;

/// <summary>Turns the phase and leaves every level as it is: by one angle at all frequencies, or from a frequency on.</summary>
/// <remarks>
/// One angle for all is a filter that begins before the wave does (<see cref="RotationDesign"/>); the printer takes its latency out.
/// The all-pass is <see cref="AllPassDesign"/>'s and has no latency. An angle of 0 is no filter at all, one of ±180 turns the wave
/// over.
/// </remarks>
public sealed class Phase : IProcessor
{
    public static readonly NumberParameter Turn = new("turn_deg", Unit.Degrees, -180, 180, 0, "Turns every frequency from 20 Hz on by this angle: above zero ahead, below zero back.") { IsInExample = true };
    public static readonly NumberParameter AllPass = new("all_pass_hz", Unit.Hertz, 5, 40000, null, "Where an all-pass has turned the wave back halfway: by 90° in order 1, by 180° in order 2.");
    public static readonly NumberParameter Order = new("order", Unit.None, 1, 2, 2, "Order of the all-pass: far above it has turned the wave back by 180° or by 360°.") { Steps = [1, 2] };
    public static readonly NumberParameter Q = new("q", Unit.None, 0.1, 30, 0.7071, "How suddenly the all-pass turns: the higher, the narrower. For order 2 only.");

    public static readonly ChoiceParameter On = Sides.On("turn");

    private readonly ChannelCascade? _allPass;
    private readonly LongFilter? _rotation;
    private readonly bool _isOver;

    private Phase(Settings settings, AudioFormat format)
    {
        if (settings.Find(AllPass) is { } freq)
        {
            BiquadDesign.CheckFrequency(freq, format.SampleRate, AllPass);
            var section = settings[Order] == 1 ? AllPassDesign.FirstOrder(freq, format.SampleRate) : AllPassDesign.SecondOrder(freq, settings[Q], format.SampleRate);
            _allPass = new ChannelCascade([section], format.Channels);
            TailFrames = _allPass.TailFrames;
        }

        var turn = settings[Turn];
        _isOver = Math.Abs(turn) == 180;
        if (turn != 0 && !_isOver)
        {
            var taps = RotationDesign.Taps(turn, format.SampleRate);
            var centre = RotationDesign.Centre(format.SampleRate);
            _rotation = new LongFilter([.. Enumerable.Repeat(taps, format.Channels)]);
            LatencyFrames = _rotation.LatencyFrames + centre;
            TailFrames += centre;
        }
    }

    public static ProcessorDefinition Definition { get; } = new(
        "phase",
        1,
        "Turns the phase and leaves every level as it is.",
        [Turn, AllPass, Order, Q, On],
        static (settings, context) => OneSide.Of(On, settings, context, static (s, c) => new Phase(s, c.Format)))
    {
        AlsoCalled = ["all_pass", "rotate", "hilbert"],
        HasSeparateChannels = static settings => settings[On] == Sides.Both,
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        _allPass?.Process(block);
        _rotation?.Process(block);
        for (var channel = 0; _isOver && channel < block.Channels; channel++)
        {
            foreach (ref var sample in block[channel])
            {
                // Not −x: silence stays plain zero.
                sample = 0 - sample;
            }
        }
    }
}
