using DrumPrint.Dsp.Numerics;
using DrumPrint.Seeking;

namespace DrumPrint.Tests.Seeking;

public sealed class GridSearchTests
{
    [Fact]
    public void The_step_nearest_to_zero_is_found_wherever_a_rising_function_crosses()
    {
        for (ulong seed = 1; seed <= 200; seed++)
        {
            var noise = new CounterNoise(seed);
            var (lowest, highest) = (-800, 200);
            var crossing = -799.5 + (998 * Math.Abs(noise.Bipolar(0)));
            var bend = 0.5 + Math.Abs(noise.Bipolar(1));
            double Value(int step) => Math.Sign(step - crossing) * Math.Pow(Math.Abs(step - crossing) * 0.1, bend);

            var search = new GridSearch(lowest, highest, 0.1, 0);
            var looked = Search(search, Value, (int)(600 * noise.Bipolar(2)));

            // By looking at every step there is.
            var nearest = Enumerable.Range(lowest, highest - lowest + 1).MinBy(s => Math.Abs(Value(s)));
            Assert.True(search.IsFound);
            Assert.Equal(nearest, search.Best);
            Assert.InRange(looked, 1, 60);
        }
    }

    [Theory]
    [InlineData(5000)]
    [InlineData(-5000)]
    public void What_never_crosses_is_looked_at_to_the_end_of_the_grid(int crossing)
    {
        var search = new GridSearch(-800, 200, 0.1, 0.05);

        Search(search, step => (step - crossing) * 0.1, 0);

        Assert.False(search.IsFound);
        Assert.Equal(crossing > 0 ? 200 : -800, search.Best);
    }

    [Fact]
    public void A_function_that_jumps_back_and_forth_ends_too()
    {
        var noise = new CounterNoise(5);
        var search = new GridSearch(-800, 200, 0.1, 0.001);

        var looked = Search(search, step => noise.Bipolar(step), 0);

        Assert.InRange(looked, 1, 400);
    }

    private static int Search(GridSearch search, Func<int, double> value, int first)
    {
        var looked = 0;
        for (IReadOnlyList<int> steps = [Math.Clamp(first, -800, 200)]; steps.Count > 0; steps = search.Next())
        {
            foreach (var step in steps)
            {
                search.Put(step, value(step));
                looked++;
            }
        }

        return looked;
    }
}
