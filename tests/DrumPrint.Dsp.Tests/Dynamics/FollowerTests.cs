using System.Runtime.Intrinsics;
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
        var follower = new ReductionFollower(attackFrames, releaseFrames);
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

        new ReductionFollower(48, 4800).Follow(applied, applied);

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

    [Theory]
    [InlineData(48, 4800, true)]
    [InlineData(480, 500, false)]
    public void Where_a_fall_is_kept_shorter_than_a_rise_it_goes_in_half_steps(double attackFrames, double releaseFrames, bool isEven)
    {
        var steps = isEven ? 1 : 2;
        var detector = new SmoothDecoupled(new Ballistics(steps * attackFrames, steps * releaseFrames));
        var first = Signals.Hits(5000, 900, 400).Select(x => 20 * Math.Abs(x)).ToArray();
        var second = Signals.Hits(5000, 1300, 200).Select(x => 9 * Math.Abs(x)).ToArray();
        var (held, reduction, last) = (Vector128<double>.Zero, Vector128<double>.Zero, (First: 0.0, Second: 0.0));
        var expected = first.Zip(second).Select(asked =>
        {
            for (var step = 1; step <= steps; step++)
            {
                var (a, b) = step == steps ? asked : ((last.First + asked.First) * 0.5, (last.Second + asked.Second) * 0.5);
                held = detector.Hold(held, Vector128.Create(a, b));
                reduction = detector.Smooth(reduction, held);
            }

            last = asked;
            return (reduction.GetElement(0), reduction.GetElement(1));
        }).ToArray();

        new ReductionFollower(attackFrames, releaseFrames).Follow(first, second);

        Assert.Equal(isEven, detector.IsEven);
        Assert.Equal(expected, first.Zip(second));
    }
}
