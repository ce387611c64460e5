namespace DrumPrint.Flac;

/// <summary>A coded stream does not follow the format, or is not what was coded.</summary>
/// <param name="problem">What is wrong, a clause without a full stop.</param>
/// <param name="isCut">Whether the stream ends before it should.</param>
internal sealed class FlacDamageException(string problem, bool isCut = false) : Exception(problem)
{
    public string Problem { get; } = problem;

    public bool IsCut { get; } = isCut;
}
