using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Recording;

namespace DrumPrint.Tests.Demo;

[Collection(DemoGroup.Name)]
public sealed class DemoSpaceTests(DemoFixture demo)
{
    [Theory]
    [InlineData(11, 0.45)]
    [InlineData(15, 0.45)]
    [InlineData(16, 0.45)]
    [InlineData(17, 0.45)]
    [InlineData(18, 0.45)]
    [InlineData(19, 1.3)]
    public void The_room_and_the_hall_decay_as_the_session_sheet_says(int microphone, double seconds)
    {
        var decay = Reverberation.T30Mid(RoomResponse.Of(Microphones.All[microphone - 1]));

        Assert.InRange(decay / seconds, 1 - DemoTolerance.RoomDecay, 1 + DemoTolerance.RoomDecay);
    }

    [Fact]
    public void The_chamber_has_four_ways_of_2_6_s_that_decay_in_1_9_s()
    {
        var ways = DemoFixture.Channels(demo.Files.Impulses[0]);

        Assert.Equal(4, ways.Length);
        Assert.All(ways, way =>
        {
            Assert.Equal(124800, way.Length);
            Assert.InRange(Reverberation.T30(way) / 1.9, 1 - DemoTolerance.ChamberDecay, 1 + DemoTolerance.ChamberDecay);
        });
    }

    [Fact]
    public void The_chamber_gives_back_each_side_with_an_energy_of_0_dB_and_no_direct_sound()
    {
        var ways = DemoFixture.Channels(demo.Files.Impulses[0]);

        Assert.Equal(1, Energy(ways[0]) + Energy(ways[1]), 1e-3);
        Assert.Equal(1, Energy(ways[2]) + Energy(ways[3]), 1e-3);
        Assert.All(ways, way => Assert.All(way[..240], sample => Assert.Equal(0, sample)));
    }

    [Fact]
    public void The_ways_of_the_chamber_have_nothing_in_common()
    {
        var ways = DemoFixture.Channels(demo.Files.Impulses[0]);

        for (var first = 0; first < 4; first++)
        {
            for (var second = first + 1; second < 4; second++)
            {
                var common = ways[first].Zip(ways[second], (a, b) => a * b).Sum() / Math.Sqrt(Energy(ways[first]) * Energy(ways[second]));

                Assert.InRange(common, -0.1, 0.1);
            }
        }
    }

    [Fact]
    public void The_small_space_is_stereo_and_0_9_s_long()
    {
        var sides = DemoFixture.Channels(demo.Files.Impulses[1]);

        Assert.Equal(2, sides.Length);
        Assert.All(sides, side => Assert.Equal(43200, side.Length));
    }

    private static double Energy(double[] samples) => samples.Sum(s => s * s);
}
