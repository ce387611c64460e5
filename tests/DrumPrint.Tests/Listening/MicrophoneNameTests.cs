using DrumPrint.Listening;

namespace DrumPrint.Tests.Listening;

/// <summary>Names as people give them; common practice, no source.</summary>
public sealed class MicrophoneNameTests
{
    [Theory]
    [InlineData("01_KickIn.wav", Role.Kick, Standing.In, Side.None)]
    [InlineData("BD out.wav", Role.Kick, Standing.Out, Side.None)]
    [InlineData("BDi.wav", Role.Kick, Standing.In, Side.None)]
    [InlineData("Grosse Caisse dedans.wav", Role.Kick, Standing.In, Side.None)]
    [InlineData("Caisse claire dessous.wav", Role.Snare, Standing.Under, Side.None)]
    [InlineData("Kleine Trommel oben.wav", Role.Snare, Standing.Top, Side.None)]
    [InlineData("SDb.wav", Role.Snare, Standing.Under, Side.None)]
    [InlineData("snrtop_03.wav", Role.Snare, Standing.Top, Side.None)]
    [InlineData("Hi-Hat.wav", Role.Hat, Standing.Unknown, Side.None)]
    [InlineData("HH.wav", Role.Hat, Standing.Unknown, Side.None)]
    [InlineData("T1.wav", Role.RackTom, Standing.Unknown, Side.None)]
    [InlineData("FTb.wav", Role.FloorTom, Standing.Under, Side.None)]
    [InlineData("Floor Tom Under.wav", Role.FloorTom, Standing.Under, Side.None)]
    [InlineData("OHL.wav", Role.Overhead, Standing.Unknown, Side.Left)]
    [InlineData("OH.R.wav", Role.Overhead, Standing.Unknown, Side.Right)]
    [InlineData("Aérien gauche.wav", Role.Overhead, Standing.Unknown, Side.Left)]
    [InlineData("Far Room R.wav", Role.Room, Standing.Far, Side.Right)]
    [InlineData("RaumNahLinks.wav", Role.Room, Standing.Near, Side.Left)]
    [InlineData("Audio_07.wav", Role.Unknown, Standing.Unknown, Side.None)]
    [InlineData("Click.wav", Role.Other, Standing.Unknown, Side.None)]
    internal void A_name_says_drum_place_and_side(string name, Role role, Standing standing, Side side)
    {
        var read = MicrophoneName.Of(name);

        Assert.Equal((role, standing, side), (read.Role, read.Standing, read.Side));
    }

    [Fact]
    public void Takes_of_one_microphone_share_a_stem()
    {
        var (first, second) = (MicrophoneName.Of("Snare Top take 1.wav"), MicrophoneName.Of("Snare Top take 2.wav"));

        Assert.Equal((first.Stem, 1, 2), (second.Stem, first.Take, second.Take));
        Assert.NotEqual(MicrophoneName.Of("Tom 1.wav").Stem, MicrophoneName.Of("Tom 2.wav").Stem);
    }
}
