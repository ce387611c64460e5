using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Reading;

/// <summary>Gathers the mistakes of one file, so that all of them are told at once.</summary>
/// <param name="file">The file as the user named it.</param>
internal sealed class ProblemList(string file)
{
    private readonly List<ChainProblem> _problems = [];
    private readonly List<ChainProblem> _others = [];

    public string File { get; } = file;

    public int Count => _problems.Count;

    /// <summary>Whether anything is wrong, here or in another file.</summary>
    public bool Any => _problems.Count + _others.Count > 0;

    public void Add(Position at, string place, string message) => _problems.Add(new ChainProblem(at.File ?? File, at.Line, at.Column, place, message));

    /// <summary>Takes over what was found in another file.</summary>
    public void AddOther(IEnumerable<ChainProblem> problems) => _others.AddRange(problems);

    /// <summary>Ends the reading when anything is wrong.</summary>
    /// <exception cref="ChainException">All mistakes in the order they stand in the file, then those of other files.</exception>
    public void ThrowIfAny()
    {
        if (Any)
        {
            throw new ChainException([.. _problems.OrderBy(p => p.File != File).ThenBy(p => p.Line).ThenBy(p => p.Column), .. _others]);
        }
    }
}
