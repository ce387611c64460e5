using BenchmarkDotNet.Running;
using DrumPrint.Benchmarks.WholeJob;

if (args is ["whole-job", ..])
{
    return WholeJobTable.Run(args[1..]);
}

BenchmarkSwitcher.FromAssembly(typeof(WholeJobTable).Assembly).Run(args);
return 0;
