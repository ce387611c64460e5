using System.Numerics;
using System.Runtime.InteropServices;
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
        var curve = _curve.AsSpan(0, DecibelKernel.WholeVectors(frames));
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
            ref var gain = ref _fast.Samples[_fast.Start(point)];
            ref var sample = ref sound.Samples[sound.Start(point)];
            ref var result = ref product.Samples[product.Start(point)];
            for (nuint i = 0; i < (nuint)frames; i += (nuint)Vector<double>.Count)
            {
                (Vector.LoadUnsafe(ref sample, i) * Vector.LoadUnsafe(ref gain, i)).StoreUnsafe(ref result, i);
            }
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
        var room = DecibelKernel.WholeVectors(frames);
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
        ref var move = ref _moves.Samples[_moves.Start(then & 1) + (then >> 1)];
        ref var slow = ref _slowAgain.Samples[_slowAgain.Start(point)];
        ref var fast = ref _fast.Samples[_fast.Start(point)];
        var any = Vector<long>.Zero;
        var least = new Vector<double>(Least);
        for (var i = 0; i < frames; i += Vector<double>.Count)
        {
            var left = Vector.LoadUnsafe(ref move, (nuint)i) - Vector.LoadUnsafe(ref slow, (nuint)i);
            var counts = Vector.GreaterThan(Vector.Abs(left), least);
            any |= counts;
            (left & Vector.AsVectorDouble(counts)).StoreUnsafe(ref fast, (nuint)i);
        }

        return any != Vector<long>.Zero;
    }
}
