namespace DrumPrint.Cli.Tests;

/// <summary>What a reader of the guide has: the demo's session, and its takes alone.</summary>
public sealed class GuideFolder : IDisposable
{
    private const string Takes = "takes";

    private readonly TemporaryFolder _folder = new();

    public GuideFolder() => MadeDemo.CopyTo(_folder.Path);

    internal string File(string name) => _folder.File(name);

    /// <summary>Follows a page from top to bottom in a folder of its own, and holds it to what it says.</summary>
    internal void Follow(GuidePage page)
    {
        using var folder = new TemporaryFolder();
        if (page.Steps.OfType<GuideCommand>().Any(c => c.Arguments.Any(a => a.Split('/')[0] == Takes)))
        {
            MadeDemo.Copy(_folder.File($"{MadeDemo.Session}/raw"), folder.File(Takes));
        }

        foreach (var step in page.Steps)
        {
            switch (step)
            {
                case GuideCommand command:
                    Run(page, command, folder);
                    break;
                case GuideEdit edit:
                    Apply(page, edit, folder);
                    break;
            }
        }

        // A picture that a command draws is the one the page shows.
        foreach (var picture in page.Links.Where(l => System.IO.File.Exists(folder.File(l))))
        {
            Assert.Equal(Lines(Repository.File("docs", "guide", picture)), Lines(folder.File(picture)));
        }
    }

    public void Dispose() => _folder.Dispose();

    private void Run(GuidePage page, GuideCommand command, TemporaryFolder folder)
    {
        ProgramRun run;
        if (command.Arguments is ["demo"])
        {
            MadeDemo.CopyTo(folder.Path);
            run = MadeDemo.Run;
        }
        else
        {
            run = ProgramRun.Of(folder.Path, command.Arguments);
        }

        var told = $"{page.Name}: drumprint {string.Join(' ', command.Arguments)} ended with {run.ExitCode}:\n{run.Output}\n{run.Error}";
        Assert.True(run.ExitCode == command.ExitCode, told);
        var output = GuidePage.OneLine(run.Output + "\n" + run.Error);
        var from = 0;
        foreach (var line in command.Quoted)
        {
            var at = output.IndexOf(line, from, StringComparison.Ordinal);
            Assert.True(at >= 0, $"{line}\nis not there, or not in that place. {told}");
            from = at + line.Length;
        }
    }

    private static void Apply(GuidePage page, GuideEdit edit, TemporaryFolder folder)
    {
        var lines = System.IO.File.ReadAllLines(folder.File(edit.File)).ToList();
        var at = lines.FindIndex(l => l.Trim() == edit.Old[0]);
        Assert.True(at >= 0, $"{page.Name}: {edit.File} has no line '{edit.Old[0]}'.");
        Assert.Equal(edit.Old, lines.Skip(at).Take(edit.Old.Count).Select(l => l.Trim()));
        lines.RemoveRange(at, edit.Old.Count);
        lines.InsertRange(at, edit.New);
        System.IO.File.WriteAllLines(folder.File(edit.File), lines);
    }

    private static string Lines(string file) => System.IO.File.ReadAllText(file).ReplaceLineEndings("\n");
}
