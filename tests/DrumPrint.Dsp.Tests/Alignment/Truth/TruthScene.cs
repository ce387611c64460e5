using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>A drum, another that spills, a cymbal on every beat, and four microphones in a room: three pairs of known delay and polarity.</summary>
internal static class TruthScene
{
    private const double StepSeconds = 0.26;
    private const int Steps = 36;
    private const int Parts = 3;
    private const double PartSpreadDb = 3; // no two microphones hear head, beater and rattle in one balance
    private const double ColourDb = 1; // two of one make
    private const double CymbalDb = -18; // peak in the close microphone, against the drum named
    private const double NoiseDb = -62;

    private static readonly double[] SpillsDb = [-3, -6, -10, -15, -20];
    private static readonly int[] RatesHz = [48000, 44100, 96000, 48000, 88200];

    /// <summary>The pairs of a scene: close to close, to overhead, to room.</summary>
    /// <param name="number">From 0; any twenty in a row have each sound with each spill.</param>
    public static IReadOnlyList<TruthPair> Pairs(int number)
    {
        var random = new TruthRandom(FormattableString.Invariant($"alignment scene {number}"));
        var sound = (TruthSound)(number % 4);
        var spillDb = SpillsDb[number / 4 % 5];
        var rate = RatesHz[(number + (number / 20)) % 5];
        var room = new TruthRoom(rate, random);
        double[] drum = [(room.Size[0] / 2) + random.Between(-1, 1), random.Between(1.2, 1.8), random.Between(0.4, 0.8)];
        var spiller = Around(drum, random.Between(0.4, 0.9), random, room);
        var close = Around(drum, random.Between(0.05, 0.14), random, room);
        double[][] others =
        [
            Around(drum, random.Between(0.12, 0.6), random, room),
            [drum[0] + random.Between(-0.7, 0.7), drum[1] + random.Between(-0.5, 0.5), Math.Min(room.Size[2] - 0.4, drum[2] + random.Between(0.8, 1.4))],
            [random.Between(0.6, room.Size[0] - 0.6), Math.Min(room.Size[1] - 0.4, drum[1] + random.Between(2, 4.5)), random.Between(0.4, 1.9)],
        ];

        var own = Played(sound, rate, random, 0.5);
        var spill = Played(sound, rate, random, 0.5);
        var cymbal = Played(TruthSound.NoiseBurst, rate, random, 1);
        var cymbalAt = Around(drum, random.Between(0.4, 0.8), random, room);
        var length = own[0].Length;
        var lab = TruthLab.Of((int)BitOperations.RoundUpToPowerOf2((uint)(length + (rate / 2))));
        var parts = own.Select((part, n) => Array.TrueForAll(part, v => v == 0) ? null : lab.Spectrum(part, n)).ToArray();
        var spilt = lab.Spectrum(Summed(spill), Parts);
        var struck = lab.Spectrum(Filtered(cymbal[0], BiquadDesign.HighPass(5000, 2, rate)), Parts + 1);
        var loudness = room.Response(drum, close).Max(Math.Abs);
        var spillGain = Decibels.ToGain(spillDb) * loudness / room.Response(spiller, close).Max(Math.Abs);
        var cymbalGain = Decibels.ToGain(CymbalDb) * loudness / room.Response(cymbalAt, close).Max(Math.Abs);
        double[] Record(double[] at, double sign)
        {
            var sum = lab.Nothing();
            var heard = lab.Spectrum(room.Response(drum, at), Parts + 2);
            foreach (var part in parts)
            {
                var gain = Decibels.ToGain(random.Between(-PartSpreadDb, PartSpreadDb));
                if (part is not null)
                {
                    sum.Add(part, heard, gain);
                }
            }

            sum.Add(spilt, lab.Spectrum(room.Response(spiller, at), Parts + 2), spillGain);
            sum.Add(struck, lab.Spectrum(room.Response(cymbalAt, at), Parts + 2), cymbalGain);
            return Coloured(lab.Line(sum, length), sign, rate, random);
        }

        var isCloseTurned = random.Chance(0.5);
        var closeTrack = Record(close, isCloseTurned ? -1 : 1);
        var pairs = new List<TruthPair>();
        for (var i = 0; i < others.Length; i++)
        {
            var isTurned = random.Chance(0.5);
            pairs.Add(new TruthPair(
                (TruthKind)i,
                sound,
                rate,
                spillDb,
                TruthRoom.Distance(drum, others[i]),
                TruthRoom.Frames(drum, others[i], rate) - TruthRoom.Frames(drum, close, rate),
                isTurned != isCloseTurned,
                closeTrack,
                Record(others[i], isTurned ? -1 : 1)));
        }

        return pairs;
    }

    private static double[] Around(double[] centre, double metres, TruthRandom random, TruthRoom room)
    {
        while (true)
        {
            double[] way = [random.Between(-1, 1), random.Between(-1, 1), random.Between(-0.6, 1)];
            var length = Math.Sqrt(way.Sum(v => v * v));
            if (length is < 0.2 or > 1)
            {
                continue;
            }

            double[] place = [.. centre.Zip(way, (c, w) => c + (w / length * metres))];
            if (place.Zip(room.Size).All(p => p.First > 0.1 && p.First < p.Second - 0.1))
            {
                return place;
            }
        }
    }

    // Everything is played on one grid, so that much falls together, as it does in music.
    private static double[][] Played(TruthSound sound, int rate, TruthRandom random, double chance)
    {
        var drum = new TruthDrum(sound, rate, random);
        var lines = new double[Parts][];
        for (var part = 0; part < Parts; part++)
        {
            lines[part] = new double[(int)((Steps + 2) * StepSeconds * rate)];
        }

        for (var step = 0; step < Steps; step++)
        {
            if (!random.Chance(chance))
            {
                continue;
            }

            var at = (int)((((step + 1) * StepSeconds) + (0.006 * random.Gauss())) * rate);
            var gain = Decibels.ToGain(2 * random.Gauss());
            var hit = drum.Hit();
            for (var part = 0; part < Parts; part++)
            {
                for (var n = 0; n < hit[part].Length; n++)
                {
                    lines[part][at + n] += gain * hit[part][n];
                }
            }
        }

        return lines;
    }

    private static double[] Summed(double[][] lines)
    {
        var sum = new double[lines[0].Length];
        foreach (var line in lines)
        {
            for (var n = 0; n < sum.Length; n++)
            {
                sum[n] += line[n];
            }
        }

        return sum;
    }

    private static double[] Filtered(double[] line, BiquadCoefficients[] sections)
    {
        new FilterCascade(sections).Process(line);
        return line;
    }

    // No microphone is flat: a high-pass of its own, a rise or fall towards the top, and noise.
    private static double[] Coloured(double[] line, double sign, int rate, TruthRandom random)
    {
        new FilterCascade(
        [
            .. BiquadDesign.HighPass(random.Between(15, 30), 1, rate),
            .. BiquadDesign.Bell(random.Between(3000, 9000), random.Between(-ColourDb, ColourDb), 0.8, rate),
            .. BiquadDesign.HighShelf(random.Between(6000, 10000), random.Between(-ColourDb, ColourDb), 0.6, rate),
        ]).Process(line);
        var peak = line.Max(Math.Abs);
        var noise = Decibels.ToGain(NoiseDb);
        for (var n = 0; n < line.Length; n++)
        {
            line[n] = sign * 0.5 * ((line[n] / peak) + (noise * random.Between(-1, 1)));
        }

        return line;
    }
}
