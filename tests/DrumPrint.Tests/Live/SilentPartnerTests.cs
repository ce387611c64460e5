using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Live;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Live;

public sealed class SilentPartnerTests : IDisposable
{
    private const int Rate = TestSession.Rate;
    private const int Block = Rate / 100;
    private const int Seconds = 4;

    private readonly TestSession _session = new();
    private readonly AutoResetEvent _changed = new(false);

    public SilentPartnerTests() => _session.Track("raw/a.wav", Climb(0));

    public void Dispose()
    {
        _session.Dispose();
        _changed.Dispose();
    }

    [Fact]
    public void It_is_silent_until_it_is_asked_for_and_then_comes_in_over_a_quarter_of_a_second()
    {
        _session.Track("mix.wav", Constant(0.5));
        using var partner = Opened("\"mix.wav\"");
        Assert.All(Take(partner, 0, 10), s => Assert.Equal(0, s));

        partner.Fade(1);
        var heard = Take(partner, 10 * Block, 30);

        for (var n = 0; n < heard.Length / 2; n++)
        {
            Assert.Equal(Math.Min(1, (n + 1) / (0.25 * Rate)) * 0.5, heard[2 * n], 1e-6);
        }

        // Louder than the file it is never heard.
        partner.Fade(7);
        Assert.All(Take(partner, 40 * Block, 50)[^200..], s => Assert.Equal(0.5, s, 1e-6));
    }

    // A sample of the ramp says which frame it is.
    [Theory]
    [InlineData("", 0)]
    [InlineData(", \"delay_frames\": 777", -777)]
    [InlineData(", \"latency_ms\": 12.5", 600)]
    [InlineData(", \"latency_ms\": 12.5, \"delay_frames\": 100", 500)]
    public void It_is_in_step_with_the_song_through_jumps(string keys, long ahead)
    {
        _session.Track("mix.wav", Climb(0), Climb(1));
        using var partner = Opened($$"""{ "file": "mix.wav"{{keys}} }""");
        partner.Fade(1);
        Take(partner, 0, 40);

        foreach (var frame in new long[] { 40, 41, 250, 251, 7, 8, 0, 1, 395 })
        {
            var heard = Take(partner, frame * Block, 2);
            for (var n = Block; n < 2 * Block; n++)
            {
                var at = (frame * Block) + n + ahead;
                var isThere = at is >= 0 and < Seconds * Rate && (frame * Block) + n >= Math.Max(0, -ahead);
                Assert.Equal(isThere ? Ramp(at) : 0, heard[2 * n], 1e-7);
                Assert.Equal(isThere ? Ramp(at) + 1 : 0, heard[(2 * n) + 1], 1e-6);
            }
        }
    }

    [Fact]
    public void A_jump_fades_from_place_to_place_over_one_block()
    {
        _session.Track("mix.wav", [.. Enumerable.Range(0, Seconds * Rate).Select(n => n < Rate ? 0.5 : -0.5)]);
        using var partner = Opened("\"mix.wav\"");
        partner.Fade(1);
        Take(partner, 0, 50);

        var heard = Take(partner, 2 * Rate, 1);

        Assert.InRange(heard[0], 0.49, 0.5);
        Assert.InRange(heard[^1], -0.5, -0.49);
        Assert.All(Enumerable.Range(1, Block - 1), n => Assert.InRange(heard[2 * (n - 1)] - heard[2 * n], 0, 0.0025));
    }

    [Fact]
    public void One_that_is_muted_fades_out_without_a_click()
    {
        _session.Track("mix.wav", Constant(0.5));
        using var partner = Opened("\"mix.wav\"");
        partner.Fade(1);
        Take(partner, 0, 50);

        partner.Fade(0);
        var heard = Take(partner, 50 * Block, 5);

        Assert.All(Enumerable.Range(1, (5 * Block) - 1), n => Assert.InRange(heard[2 * (n - 1)] - heard[2 * n], 0, 0.0005));
        Assert.Equal(0, heard[^1]);
    }

    [Fact]
    public void A_mix_at_another_rate_is_refused_in_words_and_converted_where_that_is_asked_for()
    {
        _session.Track("mix.wav", 44100, [.. Enumerable.Range(0, Seconds * 44100).Select(n => 0.5 * Math.Sin(2 * Math.PI * 500 * n / 44100.0))]);
        using var refused = Opened("\"mix.wav\"");
        using var partner = Opened("{ \"file\": \"mix.wav\", \"convert\": true }");
        partner.Fade(1);
        Take(partner, 0, 50);
        var heard = Take(partner, Rate, 50);

        Assert.Equal("mix.wav: is at 44100 Hz, the session at 48000 Hz. Bring the mix at 48000 Hz, or add \"convert\": true to the reference to have it resampled.", refused.Problem);
        Assert.Null(partner.Problem);
        for (var n = Block; n < 50 * Block; n++)
        {
            Assert.Equal(0.5 * Math.Sin(2 * Math.PI * 500 * n / Rate), heard[2 * n], 1e-4);
        }
    }

    [Fact]
    public void What_cannot_be_heard_is_told_and_is_heard_once_it_can()
    {
        using var partner = Opened("\"mix/song.wav\"");
        partner.Fade(1);
        Assert.Equal("mix/song.wav: there is no such file. There is no such folder either.", partner.Problem);
        Assert.All(Take(partner, 0, 5), s => Assert.Equal(0, s));

        _session.Track("mix/song.wav", Constant(0.25));
        Follow(partner, "\"mix/song.wav\"");

        Assert.Null(partner.Problem);
        Assert.Equal(0.25, Take(partner, 0, 50)[^1], 1e-6);
    }

    [Fact]
    public void A_mix_outside_the_session_is_not_looked_at()
    {
        using var partner = Opened("\"../../mix.wav\"");

        Assert.StartsWith("../../mix.wav: is not read: that lies outside the session", partner.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void One_that_cannot_be_read_on_falls_silent_and_says_so()
    {
        _session.Track("mix.wav", Constant(0.25));
        using var partner = Opened("\"mix.wav\"");
        partner.Fade(1);
        Take(partner, 0, 50);
        using (var file = new FileStream(Path.Combine(_session.Folder, "mix.wav"), FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            file.SetLength(1000);
        }

        Assert.Equal(0, Take(partner, 2 * Rate, 3)[^1]);
        Assert.Contains("mix.wav", partner.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_mix_comes_in_once_the_one_before_has_faded_out()
    {
        _session.Track("mix.wav", Constant(0.25));
        _session.Track("other.wav", Constant(0.5));
        using var partner = Opened("\"mix.wav\"");
        partner.Fade(1);
        Take(partner, 0, 50);

        Follow(partner, "\"other.wav\"");
        var heard = Take(partner, 50 * Block, 50);
        Follow(partner, null);
        var gone = Take(partner, 100 * Block, 5);

        Assert.All(Enumerable.Range(1, (50 * Block) - 1), n => Assert.InRange(Math.Abs(heard[2 * (n - 1)] - heard[2 * n]), 0, 0.0003));
        Assert.Equal(0.5, heard[^1], 1e-6);
        Assert.Equal(0, gone[^1]);
        Assert.Null(partner.File);
    }

    [Fact]
    public void Its_outline_lies_on_the_time_line_of_the_song()
    {
        _session.Track("mix.wav", [.. Enumerable.Range(0, Rate).Select(n => n >= Rate / 2 ? 0.5 : 0.0)]);
        using var partner = Opened("{ \"file\": \"mix.wav\", \"delay_frames\": 48000 }");

        var outline = partner.Outline!;

        Assert.Equal(1200, outline.Count);
        Assert.All(outline.Select((peak, column) => (peak, column)), c => Assert.Equal(c.column is >= 450 and < 600 ? 0.5 : 0, c.peak, 1e-6));
    }

    [Fact]
    public void What_the_engine_gives_does_not_change_by_a_bit()
    {
        _session.Track("mix.wav", Constant(0.25));
        var (without, with) = (new LiveEngine(Chain(null), 0), new LiveEngine(Chain("\"mix.wav\""), 0));
        float[] a = new float[2 * Block], b = new float[2 * Block];
        List<float> peaks = [];
        foreach (var frame in new long[] { 0, Rate })
        {
            without.Seek(frame);
            with.Seek(frame);
            for (var n = 0; n < 20; n++)
            {
                Assert.Equal(without.Next(a, peaks), with.Next(b, peaks));
                Assert.Equal(a, b);
            }
        }

        Assert.Equal(without.Frames, with.Frames);
        Assert.Equal(without.Change(Chain(null)), with.Change(Chain(null)));
    }

    private SilentPartner Opened(string reference)
    {
        var partner = new SilentPartner(Rate, Block, ReadPolicy.Default) { Changed = () => _changed.Set() };
        Follow(partner, reference);
        return partner;
    }

    // Until it is open and its picture is there, or it cannot be.
    private void Follow(SilentPartner partner, string? reference)
    {
        partner.Follow(Chain(reference), Seconds * Rate);
        while (partner.IsOpening || (partner is { File: not null, Problem: null, Outline: null }))
        {
            Assert.True(_changed.WaitOne(TimeSpan.FromSeconds(20)));
        }
    }

    private Chain Chain(string? reference) => _session.Chain($$"""
        "tracks": { "a": "raw/a.wav" }, "buses": { "all": { "from": { "a": 0 } } }, "prints": [ { "number": 1, "name": "All", "bus": "all" } ]{{(reference is null ? "" : $", \"reference\": {reference}")}}
        """);

    private static float[] Take(SilentPartner partner, long frame, int blocks)
    {
        var heard = new float[2 * Block * blocks];
        for (var n = 0; n < blocks; n++)
        {
            partner.Add(frame + (n * Block), heard.AsSpan(2 * Block * n, 2 * Block));
        }

        return heard;
    }

    private static double Ramp(long frame) => frame / (double)(Seconds * Rate);

    private static double[] Climb(double from) => [.. Enumerable.Range(0, Seconds * Rate).Select(n => from + Ramp(n))];

    private static double[] Constant(double level) => [.. Enumerable.Repeat(level, Seconds * Rate)];
}
