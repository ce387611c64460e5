namespace DrumPrint.Conformance;

/// <summary>One line of the sheet: a figure, where what is expected comes from, and how it is measured.</summary>
/// <param name="Part">The processor or measurement it belongs to.</param>
/// <param name="Claim">What is checked, in words.</param>
/// <param name="Source">Published source, with "from memory" where that is so.</param>
/// <param name="Bar">What the figure is held against.</param>
/// <param name="Measure">Measures; called once.</param>
internal sealed record Check(string Part, string Claim, string Source, Bar Bar, Func<double> Measure)
{
    private readonly Lazy<double> _measured = new(Measure);

    /// <summary>Why the bar is not met; null for a bar that is.</summary>
    public string? Missed { get; init; }

    /// <summary>Whether nothing else may run while it measures: a time.</summary>
    public bool RunsAlone { get; init; }

    public double Measured => _measured.Value;

    public bool IsMet => Bar.IsMet(Measured);

    public override string ToString() => $"{Part}: {Claim}";
}
