using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Demo.Faults;

/// <summary>Damages the raw files.</summary>
/// <param name="session">The session.</param>
/// <param name="map">Its bars.</param>
/// <param name="steps">Writes.</param>
/// <param name="cancel">Stops the work.</param>
internal sealed class RawFaults(DemoFiles session, TempoMap map, FileSteps steps, CancellationToken cancel)
{
    private const int SlippedFrames = 512;
    private const int OverloadBar = 24;
    private const int HoleBar = 46;
    private const double HoleS = 1.2;
    private const int WrongRateHz = 44100;
    private const double FullScale = 1 - (1.0 / (1 << 23));

    // Samples at full scale of each hit, and how many on either side lead up to them.
    private static readonly int[] Overs = [5, 7, 9];
    private const int Slope = 6;
    private const double HitsApartS = 0.1;

    private readonly SpoiledFile _files = new(steps, cancel);

    /// <summary>Those that a print goes on with.</summary>
    public IEnumerable<DemoFault> BeforePrint()
    {
        _files.Write(Track(12), lateFrames: SlippedFrames);
        yield return new("R2", "raw/12_OHR.wav", $"The file starts {SlippedFrames} frames late.", new FaultSign("B2", "overhead right"));

        var hits = LoudestIn(Track(5), OverloadBar);
        _files.Write(Track(5), (block, first) => Overload(block[0], first, hits));
        yield return new("R3", "raw/05_SnareVent.wav", $"Three hits in bar {OverloadBar} run into full scale for {Overs[0]} to {Overs[^1]} samples.", new FaultSign("C1", "snare vent"))
        {
            PlacesS = [.. hits.Select(h => (double)h.Frame / session.SampleRate)],
        };

        File.Copy(Track(17), Track(18), overwrite: true);
        yield return new("R4", "raw/18_FarRoomR.wav", "The file is a copy of raw/17_FarRoomL.wav, so print 08 has one sound on both sides.", new FaultSign("D3", "far room right"), new FaultSign("E1", "08 RoomFar"));

        _files.Write(Track(20), channels: 2);
        yield return new("R6", "raw/20_Cabasa.wav", "A mono recording was exported as stereo, with the same on both sides.", new FaultSign("E1", "cabasa"));

        if (map.FirstBar <= HoleBar && map.LastBar >= HoleBar)
        {
            var from = (long)(map.SecondsAtBar(HoleBar) * session.SampleRate);
            var to = from + (long)(HoleS * session.SampleRate);
            _files.Write(Track(8), (block, first) => Silence(block[0], first, from, to));
            yield return new("R7", "raw/08_RackTom.wav", $"{HoleS:0.0} s of exact silence from the start of bar {HoleBar}.", new FaultSign("C10", "rack tom")) { PlacesS = [(double)from / session.SampleRate] };
        }
    }

    /// <summary>The one that no print would begin with.</summary>
    public DemoFault AfterPrint()
    {
        _files.Convert(Track(21), WrongRateHz);
        return new("R5", "raw/21_Claps.wav", $"The file is at {WrongRateHz} Hz, and the session at {session.SampleRate} Hz. No print goes on with it.", new FaultSign("A1", "claps"));
    }

    private string Track(int number) => session.Tracks[number - 1];

    // Frames of the loudest samples of a bar, one for each hit, in order of time.
    private List<(long Frame, int Sign)> LoudestIn(string path, int bar)
    {
        var from = (long)(map.SecondsAtBar(bar) * session.SampleRate);
        var samples = new double[(long)(map.SecondsAtBar(bar + 1) * session.SampleRate) - from];
        using var reader = AudioReader.Open(path, AudioHashes.None);
        reader.Skip(from);
        reader.Read(new AudioBlock([samples], 0, samples.Length));
        var apart = (int)(HitsApartS * session.SampleRate);
        var found = new List<int>();
        while (found.Count < Overs.Length)
        {
            found.Add(Enumerable.Range(0, samples.Length).Where(n => found.TrueForAll(f => Math.Abs(f - n) > apart)).MaxBy(n => Math.Abs(samples[n])));
        }

        return [.. found.Order().Select(n => (from + n, Math.Sign(samples[n])))];
    }

    private static void Overload(double[] block, long first, List<(long Frame, int Sign)> hits)
    {
        for (var i = 0; i < hits.Count; i++)
        {
            var reach = (Overs[i] / 2) + Slope;
            for (var n = -reach; n <= reach; n++)
            {
                if (hits[i].Frame + n - first is >= 0 and var at && at < block.Length)
                {
                    var part = Math.Clamp((reach - Math.Abs(n)) / (double)Slope, 0, 1);
                    block[at] += part * ((hits[i].Sign * FullScale) - block[at]);
                }
            }
        }
    }

    private static void Silence(double[] block, long first, long from, long to)
    {
        var (start, end) = ((int)Math.Clamp(from - first, 0, block.Length), (int)Math.Clamp(to - first, 0, block.Length));
        block.AsSpan(start, end - start).Clear();
    }
}
