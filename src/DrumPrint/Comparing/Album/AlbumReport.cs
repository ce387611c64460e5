using DrumPrint.Language;

namespace DrumPrint.Comparing.Album;

/// <summary>How prints move from song to song.</summary>
/// <param name="Songs">Titles, in the order given.</param>
/// <param name="Prints">Every print of any song, by number.</param>
/// <param name="HasRough">Whether every song has a rough to measure its prints against.</param>
/// <param name="Notes">What was left aside, in sentences.</param>
public sealed record AlbumReport(IReadOnlyList<string> Songs, IReadOnlyList<AlbumPrint> Prints, bool HasRough, IReadOnlyList<string> Notes)
{
    /// <summary>For each song the file that its page plays a stretch of: its rough, or else the print of the lowest number.</summary>
    public IReadOnlyList<string> Heard { get; init; } = [];

    /// <summary>What was found, in a paragraph.</summary>
    public string Verdict
    {
        get
        {
            var against = HasRough ? "against the rough of each song" : "in loudness";
            var moving = Prints.Where(p => p.MoveLu is >= 0.5).OrderByDescending(p => p.MoveLu).Take(3).ToList();
            var few = Prints.Where(p => p.Cells.Count(c => c is not null) < Songs.Count).Select(p => p.Name).ToList();
            var sentences = new List<string>();
            if (moving.Count == 0)
            {
                sentences.Add($"Over {Words.Count(Songs.Count, "song")} no print moves by 0.5 LU or more {against}.");
            }
            else
            {
                var most = moving[0];
                sentences.Add($"Over {Words.Count(Songs.Count, "song")} {most.Name} moves most {against}: {Words.Number(most.MoveLu!.Value)} LU, from {Songs[most.Softest]} (softest) to {Songs[most.Loudest]} (loudest).");
                if (moving.Count > 1)
                {
                    sentences.Add($"Then come {string.Join(" and ", moving.Skip(1).Select(p => $"{p.Name} ({Words.Number(p.MoveLu!.Value)} LU)"))}.");
                }
            }

            if (few.Count > 0)
            {
                sentences.Add($"Not in every song: {string.Join(", ", few)}.");
            }

            sentences.Add("A print that moves may be meant to; this only says where to listen.");
            return string.Join(" ", sentences);
        }
    }
}

/// <summary>One print over all songs.</summary>
/// <param name="Number">Its number in the first song that has it.</param>
/// <param name="Name">Its name.</param>
/// <param name="Cells">One for each song; null where a song has no such print.</param>
public sealed record AlbumPrint(int Number, string Name, IReadOnlyList<AlbumCell?> Cells)
{
    /// <summary>From the softest to the loudest song; null with fewer than two readings.</summary>
    public double? MoveLu
    {
        get
        {
            var levels = Cells.OfType<AlbumCell>().Select(c => c.Level).Where(double.IsFinite).ToList();
            return levels.Count < 2 ? null : levels.Max() - levels.Min();
        }
    }

    internal int Softest => At(levels => levels.MinBy(c => c.Level));

    internal int Loudest => At(levels => levels.MaxBy(c => c.Level));

    private int At(Func<IEnumerable<(double Level, int Song)>, (double Level, int Song)> choose) =>
        choose(Cells.Select((c, i) => (c?.Level ?? double.NaN, i)).Where(c => double.IsFinite(c.Item1))).Song;
}

/// <summary>One print of one song, measured from start to end.</summary>
/// <param name="LoudnessLufs">Gated loudness.</param>
/// <param name="AgainstRoughLu">Loudness less that of the rough; null without a rough.</param>
/// <param name="PeakDbfs">Largest sample.</param>
/// <param name="CrestDb">Largest sample over mean level.</param>
/// <param name="Correlation">How alike left and right are.</param>
public sealed record AlbumCell(double LoudnessLufs, double? AgainstRoughLu, double PeakDbfs, double CrestDb, double Correlation)
{
    /// <summary>What is followed from song to song: against the rough where there is one.</summary>
    public double Level => AgainstRoughLu ?? LoudnessLufs;
}
