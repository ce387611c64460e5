using System.Text;
using DrumPrint;
using DrumPrint.Conformance;
using DrumPrint.Conformance.Checks;

// Without arguments the sheet is written; with --check it is held against the one there. --alignment shows the truth set of
// microphone pairs by spill and distance.
if (args is ["--alignment"])
{
    foreach (var line in AlignmentTruth.Table())
    {
        Console.Out.WriteLine(line);
    }

    return 0;
}

var fresh = Sheet.Text();
if (args is ["--check"])
{
    var difference = Sheet.Difference(File.ReadAllText(Repository.File("docs", "conformance.md")), fresh);
    var wrong = AllChecks.Flat.Where(c => c.IsMet == (c.Missed is not null)).Select(c => $"{c}: {c.Bar.Shown(c.Measured)}").ToArray();
    foreach (var line in wrong.Prepend(difference is null ? null : $"docs/conformance.md is stale: {difference}").OfType<string>())
    {
        Console.Error.WriteLine(line);
    }

    return difference is null && wrong.Length == 0 ? 0 : 1;
}

File.WriteAllText(Repository.File("docs", "conformance.md"), fresh, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
Console.Out.WriteLine($"{AllChecks.Flat.Count()} checks, {AllChecks.Flat.Count(c => !c.IsMet)} not met: docs/conformance.md");
return 0;
