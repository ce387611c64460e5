using DrumPrint.Audio;
using DrumPrint.Tests.Live;

namespace DrumPrint.Tests.Printing;

[Collection(PrintedDemo.Group)]
public sealed class FloatRebuildTests(PrintedDemo demo)
{
    [Fact]
    public void The_fourteen_prints_of_floats_read_from_disk_rebuild_the_rough() => Rebuild.Holds(demo.Report, SampleEncoding.Float32, -140);
}
