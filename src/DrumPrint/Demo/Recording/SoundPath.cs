using System.Buffers;
using System.Numerics;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Demo.Recording;

/// <summary>How one surface reaches one microphone: directly, to a fraction of a frame, and off the walls.</summary>
internal sealed class SoundPath
{
    private const int Taps = 32;
    private const double WindowBeta = 6;
    private const double AxisTopHz = 20000;
    private const double RearLossHz = 5500;
    private const double AirLossPerMetre = 0.05;
    private const double NearestM = 0.05;

    // A cymbal's level edge-on, against the level above or below it.
    private const double PlateEdge = 0.6;

    // Beyond this distance the second walls matter.
    private const double CloseM = 0.5;

    private readonly float[] _direct;
    private readonly int _directStart;
    private readonly List<(int Delay, float Gain)>[] _echoes = [[], []];

    private SoundPath(Radiator radiator, KitMicrophone microphone, Coupling coupling)
    {
        var level = Decibels.ToGain(coupling.Db) * (microphone.IsInverted ? -1 : 1);
        var direct = level * microphone.SensitivityTo(radiator.Surface) * Directivity(radiator, microphone)
            / Math.Max(NearestM, (microphone.Place - radiator.Surface).Length);
        var distance = (microphone.Place - radiator.Strike).Length;
        DelayFrames = distance / Room.SpeedOfSound * SongForm.SampleRate;
        _directStart = Math.Max(0, (int)Math.Floor(DelayFrames) - (Taps / 2) + 1);
        _direct = Direct(direct, DelayFrames - _directStart, Top(radiator, microphone, coupling, distance));
        if (microphone.IsInHall)
        {
            return;
        }

        foreach (var (image, amplitude, order) in Room.Images(radiator.Strike, distance > CloseM ? 2 : 1))
        {
            var far = (microphone.Place - image).Length;
            var delay = (int)Math.Round(far / Room.SpeedOfSound * SongForm.SampleRate, MidpointRounding.AwayFromZero);
            _echoes[order - 1].Add((delay, (float)(level * amplitude * microphone.SensitivityTo(image) / far)));
        }
    }

    /// <summary>Delay of the direct sound.</summary>
    public double DelayFrames { get; }

    /// <summary>The path, or null when the microphone does not hear the surface.</summary>
    public static SoundPath? Between(Radiator radiator, KitMicrophone microphone)
    {
        var coupling = Coupling.Between(radiator, microphone);
        return coupling.IsHeard ? new SoundPath(radiator, microphone, coupling) : null;
    }

    /// <summary>Frames the sound grows by on its way.</summary>
    public int ExtraFrames => Math.Max(_directStart + Taps, _echoes.SelectMany(e => e).Select(e => e.Delay).DefaultIfEmpty().Max()) + 1;

    /// <summary>Adds a dry sound as the microphone hears it.</summary>
    /// <param name="target">At least the dry sound and <see cref="ExtraFrames"/> long.</param>
    public void AddTo(Span<float> target, ReadOnlySpan<float> dry)
    {
        AddDirect(target[_directStart..], dry);
        var scratch = ArrayPool<float>.Shared.Rent(2 * dry.Length);
        var once = scratch.AsSpan(0, dry.Length);
        var twice = scratch.AsSpan(dry.Length, dry.Length);
        Dull(dry, once);
        AddEchoes(target, once, _echoes[0]);
        if (_echoes[1].Count > 0)
        {
            Dull(once, twice);
            AddEchoes(target, twice, _echoes[1]);
        }

        ArrayPool<float>.Shared.Return(scratch);
    }

    private static double Directivity(Radiator radiator, KitMicrophone microphone)
    {
        if (!radiator.IsPlate)
        {
            return 1;
        }

        var up = Math.Abs((microphone.Place - radiator.Surface).Unit.Z);
        return PlateEdge + ((1 - PlateEdge) * up);
    }

    private static double Top(Radiator radiator, KitMicrophone microphone, Coupling coupling, double distance)
    {
        var behind = microphone.Pattern < 1 ? (1 - microphone.CosineTo(radiator.Surface)) * RearLossHz : 0;
        return Math.Min(coupling.TopHz, (AxisTopHz - behind) / (1 + (AirLossPerMetre * distance)));
    }

    // A windowed sinc is a delay and a low-pass without phase in one.
    private static float[] Direct(double level, double delay, double topHz)
    {
        var cutoff = 2 * topHz / SongForm.SampleRate;
        var taps = new double[Taps];
        var sum = 0.0;
        for (var k = 0; k < Taps; k++)
        {
            var place = k - delay;
            var angle = Math.PI * cutoff * place;
            var sinc = Math.Abs(angle) < 1e-9 ? 1 : Elementary.Sin(angle) / angle;
            taps[k] = sinc * KaiserWindow.At(place / (Taps / 2), WindowBeta);
            sum += taps[k];
        }

        return Array.ConvertAll(taps, t => (float)(t * level / sum));
    }

    private void AddDirect(Span<float> target, ReadOnlySpan<float> dry)
    {
        var frames = dry.Length + Taps - 1;
        var padded = ArrayPool<float>.Shared.Rent(dry.Length + (2 * Taps) + Vector<float>.Count);
        Array.Clear(padded);
        dry.CopyTo(padded.AsSpan(Taps));
        for (var n = 0; n < frames; n += Vector<float>.Count)
        {
            // Tap by tap in the same order for every frame, however wide the vectors are.
            var sum = Vector<float>.Zero;
            for (var k = 0; k < Taps; k++)
            {
                sum += _direct[k] * new Vector<float>(padded, Taps + n - k);
            }

            var left = Math.Min(Vector<float>.Count, frames - n);
            for (var lane = 0; lane < left; lane++)
            {
                target[n + lane] += sum[lane];
            }
        }

        ArrayPool<float>.Shared.Return(padded);
    }

    private static void AddEchoes(Span<float> target, ReadOnlySpan<float> dulled, List<(int Delay, float Gain)> echoes)
    {
        foreach (var (delay, gain) in echoes)
        {
            Vectors.AddScaled(target[delay..], dulled, gain);
        }
    }

    // Each wall takes a little of the top.
    private static void Dull(ReadOnlySpan<float> dry, Span<float> dulled)
    {
        dulled.Clear();
        Vectors.AddScaled(dulled, dry, 0.5f);
        Vectors.AddScaled(dulled[1..], dry[..^1], 0.25f);
        Vectors.AddScaled(dulled, dry[1..], 0.25f);
    }
}
