using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;

namespace DrumPrint.Checking.Rules;

/// <summary>One check: what it looks for, and how it finds it.</summary>
internal abstract class CheckRule
{
    public abstract Rule Rule { get; }

    /// <summary>Everything it finds, in the order of the files.</summary>
    public abstract IEnumerable<Finding> Find(CheckSubject subject);

    /// <summary>What it finds of raw files by their headers and a few windows of each; nothing for a rule that has to hear them out.</summary>
    public virtual IEnumerable<Finding> FindQuickly(CheckSubject subject) => [];

    /// <param name="track">Track, bus or print; empty for the whole set.</param>
    /// <param name="measured">What was measured, with its unit.</param>
    /// <param name="sentence">One sentence.</param>
    /// <param name="severity">How much it matters; as the rule says when left out.</param>
    protected Finding Found(string track, string measured, string sentence, Severity? severity = null) =>
        new() { Rule = Rule, Severity = severity ?? Rule.Severity, Track = track, Measured = measured, Sentence = sentence };
}
