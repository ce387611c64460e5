namespace DrumPrint.Chains;

/// <summary>A stretch of a feed that is louder or softer than the rest.</summary>
/// <param name="From">Start: a bar number or seconds.</param>
/// <param name="To">End: the last bar, played to its end, or seconds.</param>
/// <param name="InBars">Whether From and To are bars.</param>
/// <param name="Db">Level change.</param>
/// <param name="FadeMs">Time the change takes, starting at From and again at To.</param>
public sealed record Ride(double From, double To, bool InBars, double Db, double FadeMs);
