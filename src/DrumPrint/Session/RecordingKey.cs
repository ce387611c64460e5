namespace DrumPrint.Session;

/// <summary>What tracks share that can be read together: one file, from one frame on.</summary>
/// <param name="Path">Full path; of a recording of several files, all of them with their places.</param>
/// <param name="SkippedFrames">Frames at the session's rate that are passed over at its start.</param>
internal readonly record struct RecordingKey(string Path, long SkippedFrames);
