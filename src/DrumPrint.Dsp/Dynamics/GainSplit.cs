using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Takes one lane's reductions, at four points a frame, apart into a slow and a fast part of the gain. The slow one is
/// at the frame rate, the fast one at twice that.</summary>
/// <remarks>Both are parts of 1 − gain, so that nothing turned down is nothing everywhere. See <see cref="GainRates"/>.</remarks>
internal sealed class GainSplit
{
    // −120 dB of the sound: what moves less is not applied, which leaves steady stretches cheap.
    private const double Least = 1e-6;

    // Frames over which filters keep partial sums, together.
    private const int PartialFrames = 16;

    private readonly PhaseFilter _smooth;
    private readonly PhaseFilter _slow;
    private readonly PhaseFilter _back;
    private readonly PhaseBuffer _moves;
    private readonly PhaseBuffer _slowAgain = new(2, 0, 1);
    private readonly PhaseBuffer _slowLine;
    private readonly PhaseBuffer _fast = new(2, 0, 1);
    private readonly int _split;
    private readonly int _slowDelay;
    private readonly int _curvePoint;
    private readonly int _memory;
    private readonly double[] _curve = new double[PhaseBuffer.MaxFrames];
    private int _framesAtRest;

    public GainSplit(GainRates rates)
    {
        _smooth = PhaseFilter.Halving(rates.Window, 4, 1);
        _slow = PhaseFilter.Halving(rates.Slow, 2, 1);
        _back = PhaseFilter.Doubling(rates.Back, 1, 1);
        _split = rates.SplitDelay;
        _moves = new PhaseBuffer(2, (_split + 1) / 2, 1);
        _slowDelay = rates.SlowDelayFrames;
        _slowLine = new PhaseBuffer(1, _slowDelay, 1);
        _curvePoint = rates.Moves & 1;
        _memory = _smooth.Input.History + _slow.Input.History + _back.Input.History + _moves.History + _slowDelay + PartialFrames;
        _framesAtRest = _memory;
    }

    /// <summary>Whether nothing is turned down in the stretch last put in, by either part.</summary>
    public bool IsAtRest { get; private set; }

    /// <summary>Whether the fast part has anything to do in the stretch last put in.</summary>
    public bool HasFast { get; private set; }

    /// <summary>Puts in a stretch in which nothing is turned down.</summary>
    public void Rest(int frames)
    {
        if (_framesAtRest >= _memory)
        {
            (IsAtRest, HasFast) = (true, false);
            return;
        }

        for (var point = 0; point < 4; point++)
        {
            _smooth.Input.Row(point, frames).Clear();
        }

        Split(frames);
        _framesAtRest += frames;
    }

    /// <summary>Puts in a stretch.</summary>
    /// <param name="reductions">Decibels, a row of <see cref="PhaseBuffer.MaxFrames"/> for each point of a frame.</param>
    /// <param name="frames">Length of the stretch.</param>
    public void Put(double[] reductions, int frames)
    {
        for (var point = 0; point < 4; point++)
        {
            reductions.AsSpan(point * PhaseBuffer.MaxFrames, frames).CopyTo(_smooth.Input.Row(point, frames));
        }

        Split(frames);
        _framesAtRest = 0;
    }

    /// <summary>The gain at each frame as it stands before the slow and the fast part are lined up with the sound.</summary>
    /// <returns>Frames, and scratch from there to a whole number of vectors.</returns>
    public ReadOnlySpan<double> Curve(int frames)
    {
        var curve = _curve.AsSpan(0, LaneWidth.Whole(frames));
        if (IsAtRest)
        {
            curve.Fill(1);
        }

        return curve;
    }

    /// <summary>Writes the slow part, in time with the sound.</summary>
    public void TakeSlow(Span<double> slow) => _slowLine.Samples.AsSpan(0, slow.Length).CopyTo(slow);

    /// <summary>Multiplies samples at twice the frame rate by the fast part.</summary>
    public void ApplyFast(PhaseBuffer sound, PhaseBuffer product, int frames)
    {
        for (var point = 0; point < 2; point++)
        {
            StretchMath.Multiply(sound.Row(point, frames), _fast.Row(point, frames), product.Row(point, frames));
        }
    }

    /// <summary>Goes on to the next stretch.</summary>
    public void Advance(int frames)
    {
        if (!IsAtRest)
        {
            _slowLine.Advance(frames);
        }
    }

    private void Split(int frames)
    {
        var room = LaneWidth.Whole(frames);
        _smooth.Run(_moves, frames);
        for (var point = 0; point < 2; point++)
        {
            var row = _moves.Samples.AsSpan(_moves.Start(point), room);
            DecibelKernel.ReductionToGain(row);
            if (point == _curvePoint)
            {
                row[..frames].CopyTo(_curve);
            }

            StretchMath.Mix(row, -1, 1);
            row[..frames].CopyTo(_slow.Input.Row(point, frames));
        }

        _slow.Run(_back.Input, frames);
        _back.Input.Row(0, frames).CopyTo(_slowLine.Row(0, frames));
        _back.Run(_slowAgain, frames);
        HasFast = false;
        for (var point = 0; point < 2; point++)
        {
            HasFast |= SubtractSlow(point, frames);
        }

        _moves.Advance(frames);
        IsAtRest = false;
    }

    // Whether anything is left.
    private bool SubtractSlow(int point, int frames)
    {
        var then = point - _split;
        var start = _moves.Start(then & 1) + (then >> 1);
        var kernel = new Fast(_moves.Samples.AsSpan(start, frames), _slowAgain.Row(point, frames), _fast.Row(point, frames));
        Lanewise.Run(ref kernel);
        return kernel.IsAny;
    }

    // What is left beside the slow part, and nothing where it does not count.
    internal ref struct Fast(ReadOnlySpan<double> moves, ReadOnlySpan<double> slow, Span<double> fast) : ILaneKernel
    {
        private readonly ref readonly double _moves = ref MemoryMarshal.GetReference(moves);
        private readonly ref readonly double _slow = ref MemoryMarshal.GetReference(slow[..moves.Length]);
        private readonly ref double _fast = ref MemoryMarshal.GetReference(fast[..moves.Length]);

        public nint Length { get; } = moves.Length;

        public bool IsAny { get; private set; }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var moves = ref _moves;
            ref readonly var slow = ref _slow;
            ref var fast = ref _fast;
            var least = T.Of(Least);
            var any = T.Of(0);
            for (; i <= length - T.Count; i += T.Count)
            {
                var left = T.Load(in moves, i) - T.Load(in slow, i);
                var counts = T.Less(least, T.Abs(left));
                any = T.OrBits(any, counts);
                T.AndBits(left, counts).Store(ref fast, i);
            }

            IsAny |= T.AnyBits(any);
            return i;
        }
    }
}
