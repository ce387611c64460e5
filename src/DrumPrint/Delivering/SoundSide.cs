namespace DrumPrint.Delivering;

/// <summary>Which side of a stereo sound a mono file holds.</summary>
public enum SoundSide
{
    /// <summary>None: it holds all there is.</summary>
    Whole,

    Left,

    Right,
}
