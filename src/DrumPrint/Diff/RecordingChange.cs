using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>Tells what became of a file that goes in: another name, another sound.</summary>
internal static class RecordingChange
{
    /// <summary>What was taken down of an input; null where nobody did.</summary>
    public static RecordedInput? Input(IReadOnlyList<RecordedInput>? inputs, string name) => inputs?.FirstOrDefault(i => i.Name == name);

    /// <summary>What was taken down of one file of an input; null where nobody did.</summary>
    public static RecordedInput? Input(IReadOnlyList<RecordedInput>? inputs, string name, string file) => inputs?.FirstOrDefault(i => i.Name == name && i.File == file);

    /// <summary>The change in words; null where nothing changed.</summary>
    /// <param name="a">The file before.</param>
    /// <param name="b">The file now.</param>
    /// <param name="one">What was heard of it before; null where nobody took that down.</param>
    /// <param name="other">What is heard of it now; null where nobody took that down.</param>
    public static string? Of(string a, string b, RecordedInput? one, RecordedInput? other)
    {
        var isOther = one is not null && other is not null && (one.AudioSha256, one.RateHz, one.Channels, one.Encoding) != (other.AudioSha256, other.RateHz, other.Channels, other.Encoding);
        if (a != b)
        {
            return $"file {a} → {b}{(one is null || other is null ? "" : isOther ? ", another sound" : ", the same sound")}";
        }

        if (!isOther)
        {
            return null;
        }

        var length = one!.Frames == other!.Frames ? "" : $", {ChangeWords.Seconds(one.Frames, one.RateHz)} → {ChangeWords.Seconds(other.Frames, other.RateHz)} s long";
        return $"the recording in {b} has changed{length}";
    }
}
