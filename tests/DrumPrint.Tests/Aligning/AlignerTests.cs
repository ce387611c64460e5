using DrumPrint.Aligning;
using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Files;
using DrumPrint.Tests.Demo;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Aligning;

/// <summary>The invented session, whose geometry is known.</summary>
[Collection(DemoGroup.Name)]
public sealed class AlignerTests(DemoFixture demo)
{
    private const double CloseFrames = 0.3;
    private const double OverheadFrames = 1.5; // the kick's own microphones stand inside and before its shell
    private const double RoomFrames = 2;

    // Straight ways by the plan of the kit, in frames at 48 kHz and 343.2 m/s.
    private static readonly Dictionary<(string, string), double> Plan = new()
    {
        [("kick in", "kick out")] = 52.8,
        [("kick in", "overhead left")] = 200.5,
        [("kick in", "overhead right")] = 169.6,
        [("snare top", "snare vent")] = 16.3,
        [("snare top", "snare bottom")] = 17.4,
        [("snare top", "overhead left")] = 127,
        [("snare top", "overhead right")] = 127.7,
        [("snare top", "front")] = 206,
        [("snare top", "hall")] = 831,
        [("hat mic", "overhead left")] = 70.9,
        [("hat mic", "overhead right")] = 133.4,
        [("rack tom", "overhead left")] = 126.2,
        [("rack tom", "overhead right")] = 113.8,
        [("floor tom", "floor tom under")] = 40.1,
        [("floor tom", "overhead left")] = 174.4,
        [("floor tom", "overhead right")] = 103.9,
    };

    [Fact]
    public void Every_delay_told_is_the_plans_and_every_polarity_told_is_right()
    {
        var report = Look(["front", "hall"]);

        Assert.Contains(report.Rows, r => r.Found.IsDelayKnown);
        Assert.All(report.Rows.Where(r => r.Found.IsDelayKnown && Plan.ContainsKey((r.Reference, r.Microphone))), row =>
            Assert.InRange(Math.Abs(row.Found.DelayFrames - Plan[(row.Reference, row.Microphone)]), 0, row.Kind switch
            {
                MicrophoneKind.SameDrum => CloseFrames,
                MicrophoneKind.Overhead => OverheadFrames,
                _ => RoomFrames,
            }));
        Assert.All(report.Rows.Where(r => r.Polarity != PairPolarity.CannotBeTold), row =>
            Assert.Equal(row.Microphone is "kick sub" or "snare bottom" or "floor tom under" ? PairPolarity.Opposite : PairPolarity.Same, row.Polarity));
    }

    [Fact]
    public void The_delay_inside_the_kick_and_the_three_inversions_are_found()
    {
        var report = Look([]);

        var inside = Assert.Single(report.Rows, r => r.Microphone == "kick out");
        Assert.True(inside.Found.IsDelayKnown);
        Assert.Equal(1.10, inside.Found.DelayMs, 0.01);
        Assert.Equal(["kick sub", "snare bottom", "floor tom under"], report.Rows.Where(r => r.Polarity == PairPolarity.Opposite).Select(r => r.Microphone));
        Assert.All(report.Rows.Where(r => r.Kind == MicrophoneKind.SameDrum), r => Assert.NotEqual(true, r.IsOppositeNow));
    }

    [Fact]
    public void Rooms_are_looked_at_only_when_named()
    {
        Assert.DoesNotContain(Look([]).Rows, r => r.Kind == MicrophoneKind.Room);
        Assert.Equal(["hall"], Look(["hall"]).Rows.Where(r => r.Kind == MicrophoneKind.Room).Select(r => r.Microphone).Distinct());
    }

    // The demo's snare bottom, as if it had come back 7.3 ms late: three times as far as a microphone at a drum can be.
    [Fact]
    public void A_latency_is_taken_out_before_anything_is_measured_and_stays_when_a_delay_is_written()
    {
        var folder = Path.GetDirectoryName(demo.Files.Chain)!;
        var plain = ChainReader.Read(demo.Files.Chain);
        var late = Path.Combine(folder, "raw", "late-bottom.wav");
        var track = plain.Tracks.First(t => t.Name == "snare bottom");
        try
        {
            Audio.Planar.Write(late, [[.. new double[350], .. TestSession.ReadFile(Path.Combine(folder, track.File))[0]]], SampleEncoding.Pcm24);
            var chain = plain with { Tracks = [.. plain.Tracks.Select(t => t == track ? t with { File = "raw/late-bottom.wav", LatencyMs = 350 / 48.0 } : t)] };

            var report = Aligner.Look(chain, [], ReadPolicy.Default, (_, _) => { }, CancellationToken.None);

            var row = Assert.Single(report.Rows, r => r.Microphone == "snare bottom");
            Assert.Equal(Assert.Single(Look([]).Rows, r => r.Microphone == "snare bottom").Found.DelayFrames, row.Found.DelayFrames, 0.01);
            Assert.Equal(AlignmentMove.Of(Look([]), plain, "snare bottom", null), AlignmentMove.Of(report, chain, "snare bottom", null));
        }
        finally
        {
            File.Delete(late);
        }
    }

    private AlignmentReport Look(string[] with) => Aligner.Look(ChainReader.Read(demo.Files.Chain), with, ReadPolicy.Default, (_, _) => { }, CancellationToken.None);
}
