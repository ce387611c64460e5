using System.Text;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Demo.Spaces;
using DrumPrint.Prints;

namespace DrumPrint.Demo;

/// <summary>Sees to it that demo replaces nothing but what it wrote itself.</summary>
internal static class EarlierDemo
{
    /// <summary>Looks at a folder before anything is written to it.</summary>
    /// <param name="folder">Where the session goes.</param>
    /// <param name="chain">Its chain file.</param>
    /// <param name="impulses">Its impulses, by path.</param>
    /// <exception cref="UsageException">It is a file, or it holds something of somebody else's under a name of the session's.</exception>
    public static void Check(string folder, string chain, IReadOnlyDictionary<string, double[][]> impulses)
    {
        if (File.Exists(folder))
        {
            throw new UsageException($"{folder} is a file, and demo writes a folder. Name a folder that is there, or a new one. Nothing was written.");
        }

        if (TextFile.Find(chain) is { } text && text != ChainText.Of(full: true) && text != ChainText.Of(full: false))
        {
            throw new UsageException($"{chain} has been changed since demo wrote it, and demo would put the first one back. Print it with: drumprint print {chain} — or give demo another folder. Nothing was written.");
        }

        var tempo = Path.Combine(folder, SongForm.TempoFile);
        if (TextFile.Find(tempo) is { } map && map != TempoText.Of(SongForm.Whole) && map != TempoText.Of(SongForm.Cut))
        {
            throw new UsageException($"{tempo} has been changed since demo wrote it, and demo would put the first one back. Give demo another folder. Nothing was written.");
        }

        var maker = Encoding.ASCII.GetBytes(Recorder.Maker);
        var others = Microphones.All.Select(m => Path.Combine(folder, "raw", m.FileName)).Where(p => !EarlierPrint.MayReplace(p, maker))
            .Concat(impulses.Where(i => !ImpulseWriter.MayReplace(i.Key, i.Value)).Select(i => i.Key))
            .ToList();
        if (others.Count > 0)
        {
            var more = others.Count == 1 ? "" : $" and {others.Count - 1} more";
            throw new UsageException($"{others[0]}{more}: demo did not write {(others.Count == 1 ? "this file" : "these files")}, and would replace {(others.Count == 1 ? "it" : "them")} with its own. Give demo another folder. Nothing was written.");
        }
    }
}
