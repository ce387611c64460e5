namespace DrumPrint.Demo.Recording;

/// <summary>How far the writing of the demo session has come.</summary>
/// <param name="Task">What is being done, in a few words.</param>
/// <param name="Fraction">Part of the whole that is done, 0 to 1.</param>
public readonly record struct DemoProgress(string Task, double Fraction);
