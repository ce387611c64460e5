using DrumPrint.Cli;
using DrumPrint.Cli.Output;

Terminal.UseUtf8();
return await Entry.Run(args);
