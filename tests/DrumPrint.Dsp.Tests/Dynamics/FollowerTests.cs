using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Dynamics;

public sealed class FollowerTests
{
    [Theory]
    [InlineData(10, 50)]
    [InlineData(50, 10)]
    [InlineData(0, 0)]
    [InlineData(480, 5760)]
    public void A_reduction_that_is_over_ends_in_zero(double attackFrames, double releaseFrames)
    {
        var follower = new ReductionFollower(new Ballistics(attackFrames, releaseFrames));
        var reductions = new double[400000];
        reductions.AsSpan(0, 100).Fill(12);

        follower.Follow(reductions, reductions);

        Assert.True(follower.IsAtRest);
        Assert.Equal(0, reductions[^1]);
    }

    // Eq. (17) as printed, with a leak long against the smoother: the paper's release is then the leak's own.
    [Fact]
    public void Detector_is_the_published_smooth_decoupled_one()
    {
        var ballistics = new Ballistics(48, 4800);
        var asked = Signals.Hits(20000, 3000, 400).Select(x => 20 * Math.Abs(x)).ToArray();
        var applied = asked.ToArray();

        new ReductionFollower(ballistics).Follow(applied, applied);

        Assert.Equal(ballistics.Rise, ballistics.Fall);
        var held = 0.0;
        var reduction = 0.0;
        for (var n = 0; n < asked.Length; n++)
        {
            held = Math.Max(asked[n], (ballistics.Leak * held) + ((1 - ballistics.Leak) * asked[n]));
            reduction = (ballistics.Rise * reduction) + ((1 - ballistics.Rise) * held);
            Assert.Equal(reduction, applied[n], DynamicsTolerance.SameGainDb);
        }
    }
}
