using System.Diagnostics;

namespace DrumPrint.Live;

/// <summary>How work beside the sound gives way to it, from when this is made on.</summary>
/// <remarks>A system shares its cores out in longer turns than the sound can wait, whatever the priorities.</remarks>
/// <param name="isShort">Tells whether what plays is short of blocks, and had better have the cores. Asked from any thread.</param>
internal sealed class GivesWay(Func<bool> isShort)
{
    private readonly long _begun = Stopwatch.GetTimestamp();

    /// <summary>Time from its beginning after which it rests no more: where the sound does not recover by then, a change has waited long
    /// enough.</summary>
    public TimeSpan LongestRest { get; init; } = TimeSpan.FromSeconds(0.15);

    /// <summary>Whether it is done by one thread alone, which leaves other cores to whoever plays.</summary>
    public bool IsAlone { get; init; }

    /// <summary>Tells whether nobody wants it any more. Once it is so, it stays so. Asked from any thread.</summary>
    public Func<bool> IsOff { get; init; } = static () => false;

    /// <summary>Waits while what plays is short.</summary>
    public void Rest()
    {
        while (isShort() && !IsOff() && Stopwatch.GetElapsedTime(_begun) < LongestRest)
        {
            Thread.Sleep(1);
        }
    }
}
