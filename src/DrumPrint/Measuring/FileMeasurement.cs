using DrumPrint.Audio;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Measuring;

/// <summary>A sound file in figures.</summary>
/// <param name="Info">What its header says.</param>
/// <param name="Sound">What its samples say.</param>
public sealed record FileMeasurement(AudioFileInfo Info, SoundReading Sound);
