namespace DrumPrint.Listening;

/// <summary>What a microphone is taken for.</summary>
/// <param name="Role">What it is for; <see cref="Role.Unknown"/> where that is unsure.</param>
/// <param name="Standing">Where it stands at its drum.</param>
/// <param name="Side">Left or right.</param>
/// <param name="Drum">What its drum is called in the kit: <c>kick</c>, <c>tom 2</c>; microphones of one drum share it.</param>
/// <param name="IsSure">Whether name and sound say the same.</param>
/// <param name="Why">What says so, one line.</param>
internal sealed record Place(Role Role, Standing Standing, Side Side, string Drum, bool IsSure, string Why)
{
    /// <summary>Whether it stands at one drum.</summary>
    public bool IsClose => Role is Role.Kick or Role.Snare or Role.Hat or Role.RackTom or Role.FloorTom or Role.Ride or Role.Cymbal;
}
