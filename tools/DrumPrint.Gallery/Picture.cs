using ScottPlot;

namespace DrumPrint.Gallery;

/// <summary>One picture of the gallery.</summary>
/// <param name="File">Name of the file.</param>
/// <param name="See">What there is to see, one sentence for the gallery's page.</param>
/// <param name="Draw">Draws it.</param>
internal sealed record Picture(string File, string See, Func<Plot> Draw);
