using System.Text;
using DrumPrint.Gallery;

// Draws every picture into a folder: the one named, or docs/gallery.
var folder = args.Length > 0 ? args[0] : Path.Combine("docs", "gallery");
Directory.CreateDirectory(folder);
Picture[] pictures = [.. EqPictures.All(), .. PhasePictures.All(), .. BandPictures.All(), .. CompressPictures.All(), .. GatePictures.All(), .. DuckPictures.All(), .. HitsPictures.All(), .. SpillPictures.All(), .. HumPictures.All(), .. CeilingPictures.All(), .. SaturationPictures.All(), .. TapePictures.All(), .. TailPictures.All(), .. LayerPictures.All()];
var page = new StringBuilder("""
    # Gallery

    What the processors do, drawn from the processors themselves by `dotnet run -c Release --project tools/DrumPrint.Gallery`. Figures
    stand in [conformance.md](../conformance.md).

    """);
foreach (var picture in pictures)
{
    picture.Draw().SavePng(Path.Combine(folder, picture.File), House.Width, House.Height);
    page.Append($"\n![{Path.GetFileNameWithoutExtension(picture.File).Replace('_', ' ')}]({picture.File})\n\n{picture.See}\n");
}

File.WriteAllText(Path.Combine(folder, "README.md"), page.ToString(), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
Console.Out.WriteLine($"{pictures.Length} pictures: {folder}");
