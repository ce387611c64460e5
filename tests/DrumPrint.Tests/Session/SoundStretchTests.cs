using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Session;

/// <summary>A hit of the take itself is a sound too, however long the take.</summary>
public sealed class SoundStretchTests : IDisposable
{
    private const int Rate = TestSession.Rate;
    private const double AtS = 66.25;
    private const int TakeS = 70;

    private readonly TestSession _session = new();

    [Fact]
    public void A_layer_plays_a_stretch_of_a_take_of_any_length_as_if_it_were_cut_out()
    {
        var take = Take();
        _session.Track("take.wav", take);
        _session.Track("cut.wav", take[(int)(AtS * Rate)..(int)((AtS + 0.3) * Rate)]);

        _session.Print(Chain("take.wav", FormattableString.Invariant($"\"from_s\": {AtS}, \"to_s\": {AtS + 0.2}")));
        var fromTake = _session.Read("01_Under_Test_v1.wav")[0];
        Directory.Delete(_session.Prints, recursive: true);
        _session.Print(Chain("cut.wav", "\"to_s\": 0.2"));

        Assert.Equal(_session.Read("01_Under_Test_v1.wav")[0], fromTake);
        Assert.True(fromTake.Max() > 0.01);
    }

    [Fact]
    public void A_take_at_another_rate_is_cut_at_the_same_place()
    {
        var take = Take();
        _session.Track("take.wav", take);
        _session.Track("other.wav", 96000, RateConverter.Convert(take, Rate, 96000));

        var same = Sound("take.wav");
        var other = Sound("other.wav");

        Assert.InRange(same.Frames, Rate / 5, 4 * Rate);
        Assert.True(Difference(same, other, 0) < 0.02);
        Assert.True(Difference(same, other, 1) > 0.05);
    }

    [Theory]
    [InlineData("\"from_s\": 66.2")]
    [InlineData("\"from_s\": 1, \"to_s\": 65")]
    public void A_long_file_without_a_short_stretch_is_refused_with_the_way_out(string stretch)
    {
        _session.Track("take.wav", new double[TakeS * Rate]);

        var refused = Assert.Throws<InputException>(() => SessionInputs.Open(Chain("take.wav", stretch), ReadPolicy.Default));

        Assert.Contains("(70 s)", refused.Message, StringComparison.Ordinal);
        Assert.Contains("give it 'from_s' and 'to_s', at most a minute apart", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_stretch_of_a_long_file_is_read_anew_while_it_plays()
    {
        _session.Track("take.wav", Take());
        var first = LiveSession.Of(Chain("take.wav", "\"from_s\": 66.25, \"to_s\": 66.45"), ReadPolicy.Default, null);

        var near = LiveSession.Of(Chain("take.wav", "\"from_s\": 66.3, \"to_s\": 66.5"), ReadPolicy.Default, first);
        var far = LiveSession.Of(Chain("take.wav", "\"from_s\": 2.25, \"to_s\": 2.45"), ReadPolicy.Default, near);

        Assert.Same(first.Inputs, near.Inputs);
        Assert.NotSame(near.Inputs, far.Inputs);
    }

    [Fact]
    public void A_layer_that_is_off_needs_no_stretch_and_hears_its_own_when_it_is_on()
    {
        _session.Track("take.wav", Take());

        var off = LiveSession.Of(Chain("take.wav", "\"from_s\": 66.25, \"to_s\": 66.45, \"off\": true"), ReadPolicy.Default, null);
        var on = LiveSession.Of(Chain("take.wav", "\"from_s\": 66.25, \"to_s\": 66.45"), ReadPolicy.Default, off);

        Assert.InRange(off.Inputs.Impulses["stroke"].Frames, 1, 2 * Rate);
        Assert.NotSame(off.Inputs, on.Inputs);
        Assert.True(on.Inputs.Impulses["stroke"].Channels[0].Max() > 0.1);
    }

    public void Dispose() => _session.Dispose();

    // One stroke near the end, and softer ones before.
    private static double[] Take()
    {
        var noise = new CounterNoise(5);
        var take = new double[TakeS * Rate];
        foreach (var (seconds, height) in new[] { (2.25, 0.1), (30.5, 0.2), (AtS, 0.5) })
        {
            var at = (int)(seconds * Rate);
            for (var n = 0; n < Rate / 4; n++)
            {
                take[at + n] = height * Math.Exp(-n / 1200.0) * (Math.Sin(n * 0.03) + (0.3 * noise.Bipolar(n)));
            }
        }

        return take;
    }

    // Power of the difference as a part of the whole. A conversion keeps an impulse's gain at 0 Hz: half as many frames, each twice as high.
    private static double Difference(Dsp.Impulse one, Dsp.Impulse other, int shift)
    {
        var (difference, whole) = (0.0, 0.0);
        for (var n = (int)(AtS * Rate); n < (AtS + 0.1) * Rate; n++)
        {
            var (a, b) = (one.Channels[0][n + one.LeadFrames], other.Channels[0][n + other.LeadFrames + shift] / 2);
            difference += (a - b) * (a - b);
            whole += a * a;
        }

        return difference / whole;
    }

    private Dsp.Impulse Sound(string file) => SessionInputs.Open(Chain(file, FormattableString.Invariant($"\"from_s\": {AtS}, \"to_s\": {AtS + 0.2}")), ReadPolicy.Default).Impulses["stroke"];

    private DrumPrint.Chains.Chain Chain(string file, string stretch) => _session.ChainFile(
        $$"""
        "tracks": { "snare": "take.wav" },
        "impulses": { "stroke": "{{file}}" },
        "buses": { "under": { "from": { "snare": 0 }, "through": [ { "layer": { "sound": "stroke", "open_db": -40, {{stretch}} } } ] } },
        "prints": [ { "number": 1, "name": "Under", "bus": "under", "level_db": -6 } ]
        """);
}
