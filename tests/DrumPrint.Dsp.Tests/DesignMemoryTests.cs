namespace DrumPrint.Dsp.Tests;

public class DesignMemoryTests
{
    [Fact]
    public void What_was_made_for_equal_keys_is_made_once()
    {
        var memory = new DesignMemory();
        var made = 0;
        object Make()
        {
            made++;
            return new object();
        }

        var first = memory.Of(("gain", 48000, 1.5), Make);
        var again = memory.Of(("gain", 48000, 1.5), Make);
        memory.Of(("gain", 44100, 1.5), Make);

        Assert.Same(first, again);
        Assert.Equal(2, made);
    }

    [Fact]
    public void What_was_asked_for_longest_ago_goes_first()
    {
        var memory = new DesignMemory(2);
        var one = memory.Of(1, () => new object());
        var two = memory.Of(2, () => new object());
        memory.Of(1, () => new object());
        memory.Of(3, () => new object());

        Assert.Same(one, memory.Of(1, () => new object()));
        Assert.NotSame(two, memory.Of(2, () => new object()));
    }
}
