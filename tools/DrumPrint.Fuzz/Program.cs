using System.Globalization;
using DrumPrint;
using DrumPrint.Fuzz.Driver;
using DrumPrint.Fuzz.Seeds;
using DrumPrint.Fuzz.Targets;

const int StackBytes = 256 << 20; // as the program gives its commands

Environment.SetEnvironmentVariable("DRUMPRINT_SETTINGS", Path.Combine(Path.GetTempPath(), "drumprint-fuzz-settings"));
using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    e.Cancel = true;
    stop.Cancel();
};

var code = 2;
var work = new Thread(() => code = Work(), StackBytes);
work.Start();
work.Join();
return code;

int Work()
{
    switch (args)
    {
        case ["list"]:
            Console.WriteLine(string.Join('\n', FuzzTargets.Names));
            return 0;
        case ["run", var name, var seconds, .. var rest]:
            using (var campaign = new Campaign(name, Directory.CreateDirectory(Repository.File("artifacts", "fuzz")).FullName, rest is [var seed] ? ulong.Parse(seed, CultureInfo.InvariantCulture) : 1))
            {
                return campaign.Run(TimeSpan.FromSeconds(double.Parse(seconds, CultureInfo.InvariantCulture)), stop.Token) > 0 ? 1 : 0;
            }

        case ["replay", var name, .. var files]:
            using (var target = FuzzTargets.Make(name))
            {
                foreach (var file in files)
                {
                    Console.WriteLine($"{file}: {target.Run(File.ReadAllBytes(file))}");
                }
            }

            return 0;
        case ["afl", var name]:
            using (var target = FuzzTargets.Make(name))
            {
                SharpFuzz.Fuzzer.OutOfProcess.Run(stream =>
                {
                    using var bytes = new MemoryStream();
                    stream.CopyTo(bytes);
                    target.Run(bytes.ToArray());
                });
            }

            return 0;
        case ["instrument", var folder]:
            return Instrumentation.Run(folder);
        case ["seeds", var folder]:
            return SeedWriter.Write(folder);
        default:
            Console.Error.WriteLine("list | run TARGET SECONDS [SEED] | replay TARGET FILE... | afl TARGET | instrument FOLDER | seeds FOLDER");
            return 2;
    }
}
