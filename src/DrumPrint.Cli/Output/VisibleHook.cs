using Spectre.Console;
using Spectre.Console.Rendering;

namespace DrumPrint.Cli.Output;

/// <summary>The last look at what is drawn: a character that came through unseen is replaced, without moving anything.</summary>
internal sealed class VisibleHook : IRenderHook
{
    public IEnumerable<IRenderable> Process(RenderOptions options, IEnumerable<IRenderable> renderables) => renderables.Select(r => new Seen(r));

    private sealed class Seen(IRenderable inner) : IRenderable
    {
        public Measurement Measure(RenderOptions options, int maxWidth) => inner.Measure(options, maxWidth);

        public IEnumerable<Segment> Render(RenderOptions options, int maxWidth) => inner.Render(options, maxWidth).Select(Clean);

        // The commands of colours and progress are drawn as control codes, names never are.
        private static Segment Clean(Segment segment) =>
            segment.IsControlCode || segment.IsLineBreak || !segment.Text.EnumerateRunes().Any(IsStray)
                ? segment
                : new Segment(string.Concat(segment.Text.EnumerateRunes().Select(r => IsStray(r) ? "\uFFFD" : r.ToString())), segment.Style);

        private static bool IsStray(System.Text.Rune rune) => rune.Value != '\n' && Visible.IsHidden(rune);
    }
}
