using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Oversampling;

public sealed class SumGroupTests
{
    private const int Room = PhaseBuffer.MaxFrames;

    private static readonly int[] Offsets = [9, 4, 1, 0];

    [Theory]
    [InlineData(2, false)]
    [InlineData(2, true)]
    [InlineData(4, false)]
    [InlineData(4, true)]
    public void Sums_have_the_bits_of_one_fused_step_after_another(int count, bool hasStarts)
    {
        var source = Signals.Noise(2 * Room, 5);
        double[][] taps = [.. Offsets.Select((_, step) => Signals.Noise(count, (ulong)step + 6))];
        int[] starts = hasStarts ? [.. Enumerable.Range(5, count)] : [];
        var sums = new SumGroup([.. Offsets.Zip(taps)], starts, 0.5);

        for (var samples = 0; samples <= 70; samples++)
        {
            var results = new double[count * Room];
            sums.Run(source, ref results[0], Room, samples);

            for (var sum = 0; sum < count; sum++)
            {
                for (var n = 0; n < samples; n++)
                {
                    Assert.Equal(Expected(n, sum), results[(sum * Room) + n]);
                }
            }
        }

        double Expected(int n, int sum)
        {
            var result = hasStarts ? source[n + starts[sum]] * 0.5 : 0;
            for (var step = 0; step < Offsets.Length; step++)
            {
                result = Math.FusedMultiplyAdd(taps[step][sum], source[n + Offsets[step]], result);
            }

            return result;
        }
    }
}
