using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Diff;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Session;

/// <summary>Tracks that came back late from outside gear.</summary>
public sealed class LatencyTests : IDisposable
{
    private const int Frames = 24000;
    private readonly TestSession _session = new();

    public LatencyTests()
    {
        _session.Track("hit.wav", Signals.Hits(Frames, 5));
        _session.Track("late.wav", [.. new double[480], .. Signals.Hits(Frames, 5)]);
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void A_latency_of_whole_frames_is_taken_out_to_the_bit()
    {
        var moved = Print("\"file\": \"late.wav\", \"latency_ms\": 10");

        Assert.Equal(Print("\"file\": \"hit.wav\""), moved);
        Assert.NotEqual(Print("\"file\": \"late.wav\""), moved);
    }

    [Theory]
    [InlineData("\"latency_ms\": 0.03", -1)] // 1.44 frames
    [InlineData("\"latency_ms\": 0.032", -2)] // 1.536 frames
    [InlineData("\"latency_ms\": 0.03, \"delay_frames\": 1", 0)] // the two together are 0.44 frames earlier
    [InlineData("\"latency_ms\": 0.03, \"delay_frames\": 20", 19)]
    [InlineData("\"latency_ms\": 0.03, \"delay_ms\": 0.02", 0)] // 0.48 frames earlier
    [InlineData("\"latency_ms\": 0.04, \"delay_ms\": 0.02", -1)] // 0.96 frames earlier
    public void Latency_and_delay_together_go_to_the_nearest_whole_frame(string keys, int frames)
    {
        _session.Track("click.wav", Signals.Impulse(Frames, 100));

        Assert.Equal(100 + frames, Signals.PeakAt(Print($"\"file\": \"click.wav\", {keys}")));
    }

    [Fact]
    public void An_exact_latency_keeps_its_part_of_a_frame()
    {
        _session.Track("early.wav", Signals.Hits(Frames, 5)[2..]);

        // 1.5 frames earlier is two frames earlier and half a frame later.
        Assert.Equal(Print("\"file\": \"early.wav\", \"delay_frames\": 0.5, \"exact\": true"), Print("\"file\": \"hit.wav\", \"latency_ms\": 0.03125, \"exact\": true"));
    }

    [Fact]
    public void A_track_at_another_rate_is_moved_at_the_sessions()
    {
        _session.Track("other.wav", 96000, Signals.Hits(2 * Frames, 6));
        _session.Track("early.wav", 48000, Print("\"file\": \"other.wav\", \"convert\": true")[480..]);

        Assert.Equal(Print("\"file\": \"early.wav\"")[..19000], Print("\"file\": \"other.wav\", \"convert\": true, \"latency_ms\": 10")[..19000]);
    }

    [Fact]
    public void The_canonical_text_reads_as_the_same_chain_and_leaves_older_ones_as_they_were()
    {
        var exact = Chain("\"file\": \"hit.wav\", \"latency_ms\": 2.5, \"exact\": true");
        var text = ChainWriter.Canonical(exact);

        Assert.Equal(text, ChainWriter.Canonical(ChainReader.Parse(text, exact.Path)));
        Assert.Contains("\"latency_ms\": 2.5", text, StringComparison.Ordinal);
        Assert.DoesNotContain("latency", ChainWriter.Canonical(Chain("\"file\": \"hit.wav\"")), StringComparison.Ordinal);
        Assert.DoesNotContain("\"channel\":", ChainWriter.Canonical(Chain("\"file\": \"hit.wav\"")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"latency_ms\": -1", "'latency_ms' is -1")]
    [InlineData("\"latency_ms\": 1001", "1000")]
    [InlineData("\"latency\": 3", "Did you mean 'latency_ms'")]
    [InlineData("\"channel\": 0", "channels are counted from 1 in whole numbers. Nearest: 1.")]
    [InlineData("\"channel\": 1.5", "channels are counted from 1 in whole numbers. Nearest: 2.")]
    [InlineData("\"channel\": \"7\"", "Write the bare number: 7.")]
    [InlineData("\"channel\": true", "it takes the number of a channel, from 1, or its name in quotes.")]
    [InlineData("\"channel\": \" \"", "'channel' is empty")]
    [InlineData("\"exact\": true", "'exact' goes with a delay, and there is none.")]
    public void What_cannot_be_is_told(string keys, string message)
    {
        var e = Assert.Throws<ChainException>(() => Chain($"\"file\": \"hit.wav\", {keys}"));

        Assert.Contains(message, Assert.Single(e.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_change_is_told_in_one_sentence()
    {
        var changes = ChainChanges.Of(Made.Of("a", Chain("\"file\": \"hit.wav\"")), Made.Of("b", Chain("\"file\": \"hit.wav\", \"latency_ms\": 3.2")));
        var channel = ChainChanges.Of(Made.Of("a", Chain("\"file\": \"hit.wav\", \"channel\": 2")), Made.Of("b", Chain("\"file\": \"hit.wav\", \"channel\": \"OH\"")));

        Assert.Equal("a: latency 0 → 3.2 ms", Assert.Single(changes).ToString());
        Assert.Equal("a: channel 2 → 'OH'", Assert.Single(channel).ToString());
        Assert.All(changes.Concat(channel), c => Assert.NotEmpty(c.Reaches));
    }

    private double[] Print(string track)
    {
        _session.Print(Chain(track));
        return _session.Read("01_A_Test_v1.wav")[0][..20000];
    }

    private Chain Chain(string track) => _session.Chain($$"""
        "tracks": { "a": { {{track}} } }, "buses": { "all": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "A", "bus": "all" } ], "output": { "bits": "32f", "tail_s": 1 }
        """);
}
