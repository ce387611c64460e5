using System.Globalization;
using DrumPrint.Demo.Kit;

namespace DrumPrint.Tests.Demo;

public sealed class KitGeometryTests
{
    private static readonly Radiator[] Columns =
        [Radiators.KickInside, Radiators.Snare, Radiators.Hat, Radiators.Rack, Radiators.Floor, Radiators.Ride];

    [Fact]
    public void Overdubs_and_the_vent_stand_as_far_away_as_the_session_sheet_says()
    {
        double Distance(int number, Radiator radiator) => (Microphones.All[number - 1].Place - radiator.Surface).Length;

        Assert.Equal(0.06, Distance(5, Radiators.SnareVent), DemoTolerance.DistanceM);
        Assert.Equal(0.40, Distance(20, Radiators.Cabasa), DemoTolerance.DistanceM);
        Assert.Equal(0.80, Distance(21, Radiators.ClapsLeft), DemoTolerance.DistanceM);
        Assert.Equal(0.80, Distance(21, Radiators.ClapsRight), DemoTolerance.DistanceM);
    }

    // Metres from kick, snare, hat, rack tom, floor tom and ride, from the session sheet.
    [Theory]
    [InlineData(1, "0.11 0.59 0.96 0.54 0.52 0.77")]
    [InlineData(2, "0.49 0.88 1.14 0.63 0.82 0.80")]
    [InlineData(3, "0.54 0.94 1.18 0.71 0.92 0.92")]
    [InlineData(4, "0.53 0.14 0.44 0.32 0.63 0.78")]
    [InlineData(5, "0.57 0.26 0.39 0.46 0.81 0.99")]
    [InlineData(6, "0.36 0.27 0.65 0.56 0.62 0.96")]
    [InlineData(7, "1.11 0.67 0.21 0.68 1.21 1.18")]
    [InlineData(8, "0.69 0.63 0.72 0.17 0.77 0.53")]
    [InlineData(9, "0.58 0.72 1.12 0.66 0.22 0.41")]
    [InlineData(10, "0.44 0.85 1.31 0.97 0.51 0.99")]
    [InlineData(11, "1.54 1.05 0.72 1.07 1.47 1.35")]
    [InlineData(12, "1.32 1.06 1.17 0.99 0.96 0.72")]
    [InlineData(13, "1.37 1.62 1.65 1.21 1.65 1.35")]
    [InlineData(14, "0.26 0.32 0.78 0.53 0.39 0.79")]
    [InlineData(15, "2.43 2.48 2.26 2.13 2.76 2.45")]
    [InlineData(16, "2.23 2.52 2.63 2.09 2.33 1.90")]
    [InlineData(17, "4.81 4.87 4.64 4.48 5.08 4.65")]
    [InlineData(18, "4.63 4.87 4.88 4.42 4.74 4.25")]
    [InlineData(19, "5.87 6.09 6.00 5.65 6.09 5.65")]
    public void Microphones_stand_as_far_from_each_drum_as_the_session_sheet_says(int number, string metres)
    {
        var microphone = Microphones.All.Single(m => m.Number == number);

        var distances = Columns.Select(r => (microphone.Place - r.Strike).Length);

        Assert.All(
            metres.Split(' ').Zip(distances),
            pair => Assert.Equal(double.Parse(pair.First, CultureInfo.InvariantCulture), pair.Second, DemoTolerance.DistanceM));
    }
}
