namespace DrumPrint.Dsp.Parameters;

/// <summary>What a number may be set by instead of a value: what it is to bring about. Whoever has the whole sound finds the value.</summary>
public sealed class Goal
{
    /// <param name="what">What is wanted: a number, or a toggle that is always true. Its key names the goal.</param>
    /// <param name="how">What else may be said of it.</param>
    public Goal(Parameter what, params IReadOnlyList<Parameter> how)
    {
        ArgumentNullException.ThrowIfNull(what);
        What = what;
        Parameters = [what, .. how];
    }

    /// <summary>What is wanted.</summary>
    public Parameter What { get; }

    /// <summary>The word that names it.</summary>
    public string Key => What.Key;

    /// <summary>All that may be said of it, what is wanted first.</summary>
    public IReadOnlyList<Parameter> Parameters { get; }
}
