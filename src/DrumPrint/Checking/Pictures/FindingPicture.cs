namespace DrumPrint.Checking.Pictures;

/// <summary>A stretch of a file as it looks.</summary>
/// <param name="File">The file's name.</param>
/// <param name="FromS">Where it begins, in seconds from the start of the file.</param>
/// <param name="ToS">Where it ends.</param>
/// <param name="MarksS">Places to point at.</param>
/// <param name="TopDb">What the upper edge stands for, in dBFS.</param>
/// <param name="Lanes">One for each channel.</param>
public sealed record FindingPicture(string File, double FromS, double ToS, IReadOnlyList<double> MarksS, double TopDb, IReadOnlyList<WaveLane> Lanes);

/// <summary>Lowest and highest sample of each column, where 1 is the upper edge.</summary>
public sealed record WaveLane(IReadOnlyList<float> Lowest, IReadOnlyList<float> Highest);
