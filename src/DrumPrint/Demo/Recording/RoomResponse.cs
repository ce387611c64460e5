using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Synthesis;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Recording;

/// <summary>How the diffuse field of the room, or of the hall beyond its door, answers the kit at a microphone.</summary>
internal static class RoomResponse
{
    // The part of the diffuse energy that the early reflections do not carry already.
    private const double LatePart = 0.6;
    private const double RoomRiseS = 0.006;
    private const double HallRiseS = 0.020;

    // What comes back from the hall, against direct sound at a metre.
    private const double HallEnergy = 0.14;

    // Overdubs were played between absorbers.
    private const double OverdubPart = 0.3;

    // Decay is rendered down to this many decay times: 78 dB.
    private const double Length = 1.3;

    public static double[] Of(KitMicrophone microphone)
    {
        var source = microphone.Overdub == 0 ? Radiators.Snare.Surface : microphone.Aim;
        var distance = (microphone.Place - source).Length;
        var startS = (distance / Room.SpeedOfSound) + 0.003;
        var noise = CounterNoise.FromName($"slow ferry/room/{microphone.Name}");
        if (microphone.IsInHall)
        {
            return Make(new DiffuseTail(Room.HallDecayS, startS, HallRiseS), HallEnergy, noise);
        }

        var part = LatePart * (microphone.Overdub == 0 ? 1 : OverdubPart) * Shelter(microphone.Face);
        var sensitivity = microphone.DiffuseSensitivity;
        return Make(new DiffuseTail(Room.DecayS, startS, RoomRiseS), Room.DiffuseEnergy(distance) * part * sensitivity * sensitivity, noise);
    }

    private static double[] Make(DiffuseTail tail, double energy, CounterNoise noise)
    {
        var response = new double[(int)(Length * tail.DecayS * SongForm.SampleRate)];
        tail.AddTo(response, energy, noise);
        return response;
    }

    // The part of the energy that reaches in between shells and floor.
    private static double Shelter(Face face) => face switch
    {
        Face.Open => 1,
        Face.InsideKick => 0.05,
        _ => 0.4,
    };
}
