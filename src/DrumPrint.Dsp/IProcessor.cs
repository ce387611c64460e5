namespace DrumPrint.Dsp;

/// <summary>Changes audio in place, block after block, in order. One instance serves one render and is then dropped.</summary>
public interface IProcessor
{
    /// <summary>Frames by which the output lags the input; the renderer takes them out again.</summary>
    int LatencyFrames => 0;

    /// <summary>Frames the output may ring on after the input ends (to about −120 dB), beyond the latency.</summary>
    long TailFrames => 0;

    /// <summary>Frames after which what came in earlier changes the output by less than about −100 dB, beyond the latency. Begun this
    /// long before a stretch, a processor gives that stretch as if it had run from the start of the song.</summary>
    long MemoryFrames => TailFrames;

    /// <summary>Whether what came in before <see cref="MemoryFrames"/> and the latency changes no bit of the output.</summary>
    bool ForgetsWholly => MemoryFrames == 0;

    /// <summary>Frames of the steps in which it works, counted from where it begins. Begun in mid-song, it gives the same sound only when it
    /// begins a whole number of steps into it.</summary>
    int StepFrames => 1;

    /// <summary>Processes one block of any length from 0. Where blocks are cut never changes a bit.</summary>
    /// <param name="block">Input and output. Holds as many channels as the larger of input and output; a processor that
    /// makes mono stereo reads channel 0 and writes both.</param>
    /// <param name="key">What the detector listens to, lined up with <paramref name="block"/>; no channel when the
    /// processor listens to its own input.</param>
    void Process(AudioBlock block, AudioBlock key);

    /// <summary>Takes in a block whose output nobody hears, and is then where <see cref="Process"/> would have brought it. To be called only
    /// for blocks that end more than <see cref="LatencyFrames"/> before the first that is heard.</summary>
    /// <param name="block">Input; what it holds afterwards means nothing.</param>
    /// <param name="key">What the detector listens to.</param>
    void TakeIn(AudioBlock block, AudioBlock key) => Process(block, key);
}
