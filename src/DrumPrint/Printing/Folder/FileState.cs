namespace DrumPrint.Printing.Folder;

/// <summary>What lies under the name of a print before the new one takes it.</summary>
internal enum FileState
{
    /// <summary>Nothing, or an empty file.</summary>
    Absent,

    /// <summary>To the last byte what the run prints.</summary>
    Same,

    /// <summary>As it was printed, with the samples that the run prints.</summary>
    SameSound,

    /// <summary>As it was printed; the new print holds the same samples and goes on after them.</summary>
    OnlyLonger,

    /// <summary>As it was printed; the new print holds the same samples and ends before them.</summary>
    OnlyShorter,

    /// <summary>As it was printed, at another word length.</summary>
    OtherWordLength,

    /// <summary>As it was printed, from the same chain and raw files, and another version of the program made other samples of them.</summary>
    OtherEngine,

    /// <summary>As it was printed, by another chain or from other raw files.</summary>
    MadeOtherwise,

    /// <summary>Changed since it was printed.</summary>
    Edited,

    /// <summary>A print that says nothing of its own samples, and that no ticket and no note in the store knows.</summary>
    Unproven,

    /// <summary>A print that is no readable sound file any more.</summary>
    Damaged,

    /// <summary>Not made by DrumPrint.</summary>
    Foreign,
}
