namespace DrumPrint.Chains.Midi;

/// <summary>What a file says of time at one place.</summary>
/// <param name="Tick">The place.</param>
/// <param name="Kind">What is said.</param>
/// <param name="Data">The bytes of it.</param>
internal readonly record struct MidiEvent(long Tick, MidiEventKind Kind, ReadOnlyMemory<byte> Data);

/// <summary>What of a Standard MIDI File counts for a tempo map.</summary>
internal enum MidiEventKind
{
    /// <summary>Microseconds of a quarter note, three bytes.</summary>
    Tempo,

    /// <summary>Beats, and the note value as a power of two.</summary>
    Metre,

    /// <summary>The name of a place.</summary>
    Marker,
}
