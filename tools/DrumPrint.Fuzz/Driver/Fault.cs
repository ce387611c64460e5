using System.Text;
using DrumPrint.Fuzz.Targets;

namespace DrumPrint.Fuzz.Driver;

/// <summary>A fault as it is told apart from others.</summary>
/// <param name="Signature">What it is, and where in the product it happened.</param>
/// <param name="Text">All that was seen.</param>
internal sealed record Fault(string Signature, string Text)
{
    public static Fault Of(Exception e) => new(e is FuzzFaultException fault ? $"{fault.Kind} {(fault.Kind == "memory" ? "" : Short(fault.Message))}" : $"{e.GetType().Name} {Place(e)}", e.ToString());

    /// <summary>A name for a file.</summary>
    public string FileName
    {
        get
        {
            var name = new StringBuilder();
            foreach (var c in Signature.TakeWhile(_ => name.Length < 80))
            {
                name.Append(char.IsAsciiLetterOrDigit(c) ? c : '-');
            }

            return name.ToString().Trim('-');
        }
    }

    private static string Short(string message) => message.Length <= 60 ? message : message[..60];

    private static string Place(Exception e) =>
        e.StackTrace?.Split('\n').FirstOrDefault(l => l.Contains("DrumPrint.", StringComparison.Ordinal))?.Trim().Split('(')[0] ?? "";
}
