using DrumPrint.Dsp;

namespace DrumPrint.Live;

/// <summary>Designs for several threads: one makes the next state while another measures the last.</summary>
internal sealed class SharedDesigns : DesignMemory
{
    private readonly Lock _lock = new();

    public override T Of<T>(object key, Func<T> make)
    {
        lock (_lock)
        {
            return base.Of(key, make);
        }
    }
}
