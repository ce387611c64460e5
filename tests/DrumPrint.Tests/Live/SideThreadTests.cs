using DrumPrint.Live;

namespace DrumPrint.Tests.Live;

public sealed class SideThreadTests
{
    [Fact]
    public async Task It_takes_none_of_the_threads_that_carry_the_sound()
    {
        var isShared = true;

        await SideThread.Run(() => isShared = Thread.CurrentThread.IsThreadPoolThread);

        Assert.False(isShared);
    }

    [Fact]
    public async Task What_goes_wrong_there_is_told_to_whoever_waits() =>
        await Assert.ThrowsAsync<UsageException>(() => SideThread.Run(() => throw new UsageException("No.")));
}
