using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Resampling;

/// <summary>
/// Converts a signal from one sample rate to another. It is flat within 0.001 dB to 0.9 of the lower rate's upper limit.
/// Images and aliases are 140 dB down. Every output frame is where it belongs in time (no delay). Where the input is cut
/// never changes a bit.
/// </summary>
/// <remarks>Source: rational polyphase filtering with a Kaiser-windowed sinc, Oppenheim and Schafer, Discrete-Time Signal
/// Processing, chapter on sampling-rate changes (from memory).</remarks>
public sealed class RateConverter
{
    public const int LowestHz = 8000;
    public const int HighestHz = 384000;

    // Inputs taken in at a time, and the largest table of weights kept (8 MB).
    private const int Chunk = 4096;
    private const int LargestTable = 1 << 20;

    private readonly int _up;
    private readonly int _wholeStep;
    private readonly int _phaseStep;
    private readonly int _half;
    private readonly IPhases _phases;
    private readonly double[] _window;
    private int _held;
    private int _place;
    private int _phase;
    private long _received;
    private long _given;

    /// <param name="fromHz">Rate of the input, 8 to 384 kHz.</param>
    /// <param name="toHz">Rate of the output, 8 to 384 kHz.</param>
    public RateConverter(int fromHz, int toHz)
        : this(fromHz, toHz, LaneWidth.Best)
    {
    }

    internal RateConverter(int fromHz, int toHz, int lanes)
    {
        Check(fromHz, nameof(fromHz));
        Check(toHz, nameof(toHz));
        FromHz = fromHz;
        ToHz = toHz;
        var common = CommonDivisor(fromHz, toHz);
        _up = toHz / common;
        (_wholeStep, _phaseStep) = Math.DivRem(fromHz / common, _up);
        if (fromHz == toHz)
        {
            (_half, _phases, _window) = (1, new SinglePhase(), new double[Chunk + 2]);
            return;
        }

        var filter = new RateFilter(fromHz, toHz);
        _half = filter.Half;
        _phases = (long)_up * 2 * _half <= LargestTable ? new PhaseTable(filter, _up, lanes) : new PhasePolynomials(filter, _up, lanes);

        // The window starts with the silence before the first frame.
        _window = new double[(2 * _half) + Chunk];
        _held = _half - 1;
    }

    public int FromHz { get; }

    public int ToHz { get; }

    /// <summary>Room that <see cref="Process"/> needs in the output for a number of input frames.</summary>
    public int RoomFor(int inputFrames) => (int)((((long)inputFrames * ToHz) + FromHz - 1) / FromHz) + 1;

    /// <summary>Room that <see cref="Finish"/> needs in the output.</summary>
    public int RoomToFinish => RoomFor(_half) + 1;

    /// <summary>Frames a whole signal has after conversion: its length at the new rate, rounded up.</summary>
    public static long OutputFrames(long inputFrames, int fromHz, int toHz) => ((inputFrames * toHz) + fromHz - 1) / fromHz;

    /// <summary>Converts a whole signal.</summary>
    public static double[] Convert(ReadOnlySpan<double> input, int fromHz, int toHz)
    {
        var converter = new RateConverter(fromHz, toHz);
        var output = new double[OutputFrames(input.Length, fromHz, toHz) + 2];
        var written = 0;
        for (var start = 0; start < input.Length; start += Chunk)
        {
            written += converter.Take(input.Slice(start, Math.Min(Chunk, input.Length - start)), output.AsSpan(written));
        }

        written += converter.Drain(output.AsSpan(written));
        return output[..written];
    }

    /// <summary>Takes the next frames of the input and writes the output frames they complete; returns how many.</summary>
    public int Process(ReadOnlySpan<double> input, Span<double> output)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(output.Length, RoomFor(input.Length));
        return Take(input, output);
    }

    /// <summary>Ends the input and writes the output frames still owed; returns how many.</summary>
    public int Finish(Span<double> output)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(output.Length, RoomToFinish);
        return Drain(output);
    }

    /// <summary>Largest number that divides both (Euclid).</summary>
    internal static int CommonDivisor(int a, int b) => b == 0 ? a : CommonDivisor(b, a % b);

    private static void Check(int rate, string name)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rate, LowestHz, name);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(rate, HighestHz, name);
    }

    private int Take(ReadOnlySpan<double> input, Span<double> output)
    {
        var written = 0;
        while (!input.IsEmpty)
        {
            var part = input[..Math.Min(input.Length, _window.Length - _held)];
            part.CopyTo(_window.AsSpan(_held));
            _held += part.Length;
            _received += part.Length;
            input = input[part.Length..];
            written += Give(output[written..], long.MaxValue);
        }

        return written;
    }

    private int Drain(Span<double> output)
    {
        var total = OutputFrames(_received, FromHz, ToHz);
        var written = 0;
        for (var silence = _half; silence > 0;)
        {
            var part = Math.Min(silence, _window.Length - _held);
            _window.AsSpan(_held, part).Clear();
            _held += part;
            silence -= part;
            written += Give(output[written..], total - _given);
        }

        return written;
    }

    // Writes every output frame whose inputs are all held, then drops the inputs no longer needed.
    private int Give(Span<double> output, long most)
    {
        var written = 0;
        var taps = 2 * _half;
        while (_place + taps <= _held && written < most)
        {
            output[written++] = _phases.Sum(_window.AsSpan(_place), _phase);
            _place += _wholeStep;
            _phase += _phaseStep;
            if (_phase >= _up)
            {
                _phase -= _up;
                _place++;
            }
        }

        _given += written;
        var drop = Math.Min(_place, _held);
        _window.AsSpan(drop, _held - drop).CopyTo(_window);
        _held -= drop;
        _place -= drop;
        return written;
    }

    /// <summary>Equal rates: the sample itself.</summary>
    private sealed class SinglePhase : IPhases
    {
        public double Sum(ReadOnlySpan<double> inputs, int phase) => inputs[0];
    }
}
