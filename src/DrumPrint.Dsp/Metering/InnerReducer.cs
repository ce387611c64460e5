namespace DrumPrint.Dsp.Metering;

/// <summary>A processor inside another whose gain moves with the signal.</summary>
/// <param name="Name">Where it stands and its key, such as <c>low compress</c>.</param>
/// <param name="Reducer">The processor.</param>
/// <param name="LatencyFrames">Frames by which its output lags the other's input.</param>
public sealed record InnerReducer(string Name, IGainReducer Reducer, int LatencyFrames);
