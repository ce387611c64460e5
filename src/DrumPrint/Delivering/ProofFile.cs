namespace DrumPrint.Delivering;

/// <summary>A file of the sum that is to prove unity.</summary>
/// <param name="Path">Where it lies.</param>
/// <param name="Side">The side it goes to; a mono file that is whole goes to the centre.</param>
internal sealed record ProofFile(string Path, SoundSide Side);
