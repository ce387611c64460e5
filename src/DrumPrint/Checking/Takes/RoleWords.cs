using DrumPrint.Listening;

namespace DrumPrint.Checking.Takes;

/// <summary>Reads from a name what a microphone stands at, as <see cref="MicrophoneName"/> reads it. Where that is not sure, rules that need
/// to know leave the track alone.</summary>
internal static class RoleWords
{
    public static TakeRole Of(string name)
    {
        var read = MicrophoneName.Of(name);
        var isUnder = read.Standing == Standing.Under;
        return read.Role switch
        {
            Listening.Role.Kick => TakeRole.Kick,
            Listening.Role.Snare => isUnder ? TakeRole.SnareUnder : TakeRole.Snare,
            Listening.Role.Hat => TakeRole.Hat,
            Listening.Role.RackTom or Listening.Role.FloorTom => isUnder ? TakeRole.TomUnder : TakeRole.Tom,
            Listening.Role.Overhead => TakeRole.Overhead,
            Listening.Role.Room => TakeRole.Room,
            Listening.Role.Kit => TakeRole.Kit,
            Listening.Role.Percussion or Listening.Role.Other => TakeRole.Overdub,
            _ => TakeRole.Unknown,
        };
    }

    /// <summary>How well a microphone stands for its drum: 0 on its batter head, more the further from it.</summary>
    public static int Rank(string name) => MicrophoneName.Of(name).Standing switch
    {
        Standing.Top or Standing.In => 0,
        Standing.Unknown => 1,
        Standing.Out => 2,
        _ => 3,
    };

    /// <summary>Which side a name says: −1 left, 1 right, 0 neither.</summary>
    public static int Side(string name) => MicrophoneName.Of(name).Side switch
    {
        Listening.Side.Left => -1,
        Listening.Side.Right => 1,
        _ => 0,
    };

    /// <summary>The name without its side: what the two of a pair share.</summary>
    public static string WithoutSide(string name) => MicrophoneName.Of(name).Stem;
}
