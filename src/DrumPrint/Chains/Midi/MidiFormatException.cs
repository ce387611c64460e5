namespace DrumPrint.Chains.Midi;

/// <summary>A file is no Standard MIDI File, or not one that a tempo map can be read from.</summary>
/// <param name="problem">What is wrong, in a sentence.</param>
internal sealed class MidiFormatException(string problem) : Exception(problem);
