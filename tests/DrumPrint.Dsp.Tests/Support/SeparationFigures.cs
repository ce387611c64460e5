namespace DrumPrint.Dsp.Tests.Support;

/// <summary>How well what is wanted was parted from what is not, in decibels; <see cref="Separation"/> finds it.</summary>
/// <param name="Interference">Target to interference.</param>
/// <param name="Artefacts">Target and interference to artefacts.</param>
internal sealed record SeparationFigures(double Interference, double Artefacts);
