using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Neighbouring bands of an equaliser that stand on left and right alone, or on middle and side alone.</summary>
/// <param name="IsMidSide">Which of the two.</param>
/// <param name="First">Bands on left or middle, in order.</param>
/// <param name="Second">Bands on right or side, in order.</param>
internal sealed record SidedBands(bool IsMidSide, IReadOnlyList<Item> First, IReadOnlyList<Item> Second)
{
    /// <summary>The runs of bands, in order; bands on both sides fit anywhere and are left out.</summary>
    public static IReadOnlyList<SidedBands> Of(IEnumerable<Item> bands, Func<Item, string> side)
    {
        var runs = new List<List<Item>>();
        foreach (var band in bands.Where(b => side(b) != Sides.Both))
        {
            if (runs.Count == 0 || Sides.IsMidSide(side(runs[^1][0])) != Sides.IsMidSide(side(band)))
            {
                runs.Add([]);
            }

            runs[^1].Add(band);
        }

        return [.. runs.Select(run => new SidedBands(
            Sides.IsMidSide(side(run[0])),
            [.. run.Where(b => Sides.IsFirst(side(b)))],
            [.. run.Where(b => !Sides.IsFirst(side(b)))]))];
    }
}
