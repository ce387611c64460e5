namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>A piece of work on a row of numbers, with the same bits in lanes of any width; in <see cref="Lane1"/> it is the definition.</summary>
/// <remarks>It holds what it works on and what comes out of it. See <see cref="Lanewise.Run"/>.</remarks>
internal interface ILaneKernel
{
    /// <summary>How many numbers there are.</summary>
    nint Length { get; }

    /// <summary>Does the work from a place on, as far as whole lanes go or the work is done.</summary>
    /// <returns>Where it stopped: what is left is done in <see cref="Lane1"/>.</returns>
    nint Run<T>(nint i)
        where T : struct, ILaneBits<T>;
}
