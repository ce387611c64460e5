namespace DrumPrint.SelfTest;

/// <summary>Whether this machine makes the bytes that every machine should make.</summary>
/// <param name="Sounds">Each print of the built-in session.</param>
/// <param name="Threads">Threads of the first run.</param>
/// <param name="ReprintsIdentical">Whether the prints, made again from what they say of themselves, were the same to the last byte.</param>
public sealed record SelfTestReport(IReadOnlyList<SelfTestSound> Sounds, int Threads, bool ReprintsIdentical)
{
    /// <summary>Whether all is as it should be.</summary>
    public bool IsSame => ReprintsIdentical && Sounds.All(s => s.IsSame);
}

/// <summary>One print of the built-in session.</summary>
/// <param name="FileName">Its file name.</param>
/// <param name="Processors">What it runs through, by name, in the order of the chain; empty for a rough or the click.</param>
/// <param name="AudioSha256">Hash of its samples as made here.</param>
/// <param name="IsAsEverywhere">Whether that is the hash kept with the program.</param>
/// <param name="IsAsOnOneThread">Whether one thread and other blocks made the same.</param>
public sealed record SelfTestSound(string FileName, IReadOnlyList<string> Processors, string AudioSha256, bool IsAsEverywhere, bool IsAsOnOneThread)
{
    /// <summary>Whether both hold.</summary>
    public bool IsSame => IsAsEverywhere && IsAsOnOneThread;
}
