using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>A number of frames for a gain to move in, and the turn in each of them of the half circle whose cosine it
/// follows.</summary>
internal readonly struct RampTime
{
    public RampTime(int frames)
    {
        Frames = frames;
        (Sine, Cosine) = frames > 0 ? Elementary.SinCos(Math.PI / frames) : (0, -1);
    }

    public int Frames { get; }

    public double Sine { get; }

    public double Cosine { get; }
}
