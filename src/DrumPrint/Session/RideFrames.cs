using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>Where rides stand in frames.</summary>
internal static class RideFrames
{
    /// <summary>First frame of the change, first frame of the way back, and length of each.</summary>
    public static (long From, long To, long Fade) Of(Ride ride, Song song)
    {
        long Frame(double place) => (long)Math.Round((ride.InBars ? song.Tempo!.SecondsAtBar(place) : place) * song.RateHz);

        return (Frame(ride.From), Frame(ride.InBars ? ride.To + 1 : ride.To), (long)Math.Round(ride.FadeMs / 1000 * song.RateHz));
    }
}
