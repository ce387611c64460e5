namespace DrumPrint.Checking.Pictures;

/// <summary>What a page shows beside the words of a check.</summary>
/// <param name="Places">Pictures of the first places of each finding, in the order of the findings.</param>
/// <param name="Files">The whole of each file that something was found in, by the name of its findings.</param>
public sealed record CheckPictures(IReadOnlyList<IReadOnlyList<FindingPicture>> Places, IReadOnlyDictionary<string, FindingPicture> Files)
{
    /// <summary>How many places of a finding are shown.</summary>
    public const int MostPlaces = 3;
}
