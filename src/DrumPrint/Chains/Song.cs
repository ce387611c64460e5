namespace DrumPrint.Chains;

/// <summary>What the whole session shares.</summary>
/// <param name="Title">As people write it.</param>
/// <param name="Code">Short form used in file names.</param>
/// <param name="Version">Version of the delivery, used in file names.</param>
/// <param name="RateHz">Sample rate of every track and print.</param>
/// <param name="Tempo">Bars, metres and tempi; null when the chain names none.</param>
/// <param name="PanLawDb">Level of a centred mono feed on each side; 0 or below.</param>
/// <param name="TemperatureC">Air temperature that turns metres into time.</param>
public sealed record Song(string Title, string Code, int Version, int RateHz, TempoMap? Tempo, double PanLawDb, double TemperatureC)
{
    /// <summary>What the mixer should know of the song; null when the chain says nothing.</summary>
    public string? Notes { get; init; }

    /// <summary>Whose left and right the stereo prints have.</summary>
    public Perspective Perspective { get; init; }

    /// <summary>Bar and beat of a moment, such as <c>24:3.25</c>; null without a tempo map and after its end.</summary>
    public string? PlaceOf(double seconds) => Tempo is { IsMissing: false } tempo ? tempo.BarAndBeat(seconds) : null;
}
