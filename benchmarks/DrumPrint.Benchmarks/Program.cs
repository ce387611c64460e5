using System.Globalization;
using BenchmarkDotNet.Running;
using DrumPrint.Benchmarks.WholeJob;

switch (args)
{
    case ["whole-job", ..]:
        return WholeJobTable.Run(args[1..]);
    case ["bench", var chain]:
        return BenchTable.Run(chain);
    case ["bench", var chain, var changes]:
        return ChangesTable.Run(chain, int.Parse(changes, CultureInfo.InvariantCulture));
    case ["scaling"]:
        return ScalingTable.Run();
    case ["long-song", var folder, var minutes, var rateHz]:
        Console.WriteLine(NoiseSession.WriteDemo(folder, double.Parse(minutes, CultureInfo.InvariantCulture), int.Parse(rateHz, CultureInfo.InvariantCulture)));
        return 0;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(WholeJobTable).Assembly).Run(args);
        return 0;
}
