namespace DrumPrint.Demo.Faults;

/// <summary>A session that is damaged on purpose.</summary>
/// <param name="Session">Its files.</param>
/// <param name="List">The text that names every fault.</param>
/// <param name="Faults">The faults, in the order of that text.</param>
public sealed record FaultyDemoFiles(DemoFiles Session, string List, IReadOnlyList<DemoFault> Faults);
