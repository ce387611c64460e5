using System.Reflection;
using System.Text.RegularExpressions;
using DrumPrint.Dsp;
using DrumPrint.Tests.Support;
using Mono.Cecil;

namespace DrumPrint.Tests;

public sealed partial class LayerTests
{
    private static readonly Assembly Dsp = typeof(IProcessor).Assembly;
    private static readonly Assembly Engine = typeof(DrumPrintException).Assembly;
    private static readonly Assembly Bench = Assembly.Load("DrumPrint.Bench");

    // What the signal layer may use of the runtime: arithmetic, collections, spans. Whatever else it comes to use has to be
    // thought about here. A clock, a file, a thread, a number of processors or a culture would make its sound depend on more than
    // its input.
    private static readonly string[] Namespaces =
    [
        "System.Collections", "System.Collections.Generic", "System.Numerics", "System.Text", "System.Runtime.CompilerServices", "System.Runtime.Intrinsics", "System.Runtime.Intrinsics.Arm", "System.Runtime.Intrinsics.X86", "System.Runtime.Versioning",
    ];

    private static readonly string[] Types =
    [
        "Array", "ArgumentException", "ArgumentNullException", "ArgumentOutOfRangeException", "BitConverter", "Boolean", "Byte", "Char", "Converter`2", "Double", "Enum",
        "Exception", "FormattableString", "Func`1", "Func`2", "Func`3", "IDisposable", "IEquatable`1", "IFormatProvider", "Index", "IndexOutOfRangeException",
        "Int128", "Int16", "Int32", "Int64", "IntPtr", "InvalidOperationException", "Math", "MemoryExtensions", "MidpointRounding", "NotSupportedException", "Nullable`1", "Object",
        "ObsoleteAttribute", "Predicate`1", "Range", "ReadOnlyMemory`1", "ReadOnlySpan`1", "RuntimeFieldHandle", "RuntimeTypeHandle", "Single", "Span`1", "String",
        "StringComparer", "StringComparison", "Type", "UInt128", "UInt32", "UInt64", "UIntPtr", "ValueTuple`2", "ValueTuple`3", "ValueTuple`4", "ValueType", "Void",

        // What the compiler makes of a delegate; nothing here begins one in the background, for there is no task to wait for it.
        "AsyncCallback", "IAsyncResult", "MulticastDelegate",
    ];

    // Rows of things and memory, without the threads of the one and the machine of the other.
    private static readonly string[] FullNames =
    [
        "System.Linq.Enumerable", "System.Linq.IGrouping`2", "System.Linq.ILookup`2", "System.Linq.IOrderedEnumerable`1",
        "System.Runtime.InteropServices.CollectionsMarshal", "System.Runtime.InteropServices.LayoutKind", "System.Runtime.InteropServices.MemoryMarshal",
    ];

    // Chance has no place here either.
    private static readonly string[] Banned = ["System.Linq.Enumerable.Shuffle", "System.Linq.Enumerable.AsParallel"];

    // Of these only the members named: arrays that are not cleared first, where one lies, and the culture that depends on no machine.
    private static readonly string[] Members =
    [
        "System.GC.AllocateUninitializedArray", "System.GC.AllocateArray", "System.Globalization.CultureInfo.get_InvariantCulture", "System.Runtime.InteropServices.Marshal.UnsafeAddrOfPinnedArrayElement",
    ];

    [Fact]
    public void The_signal_layer_knows_no_other_layer_and_no_package() =>
        Assert.All(References(Dsp), name => Assert.True(IsRuntime(name), $"DrumPrint.Dsp refers to {name}"));

    [Fact]
    public void The_signal_layer_uses_arithmetic_collections_and_spans_of_the_runtime_and_nothing_else()
    {
        using var code = new CompiledReferences(Dsp);

        var strange =
            from used in code.Types()
            where used.To.Scope != used.From.Module && !IsAllowed(used.To)
            select $"{used.From.FullName} uses {used.To.FullName}";
        var members =
            from used in code.Members()
            where Members.Any(m => used.Member.StartsWith(m[..(m.LastIndexOf('.') + 1)], StringComparison.Ordinal)) && !Members.Contains(used.Member)
            select $"{used.From.FullName} uses {used.Member}";

        None(strange.Concat(members).Concat(code.Members().Where(used => Banned.Contains(used.Member)).Select(used => $"{used.From.FullName} uses {used.Member}")));
    }

    [Fact]
    public void The_signal_layer_has_no_static_that_can_change()
    {
        using var code = new CompiledReferences(Dsp);

        var changing =
            from type in code.Written
            from field in type.Fields
            where field.IsStatic && !field.IsInitOnly && !field.IsLiteral && !IsCompilers(type) && !IsCompilers(field)
            select field.FullName;

        None(changing);
    }

    [Theory]
    [InlineData("DrumPrint.Dsp")]
    [InlineData("DrumPrint.Engine")]
    public void What_touches_samples_calls_no_transcendental_and_no_estimate_of_the_runtime(string assembly)
    {
        using var code = new CompiledReferences(Assembly.Load(assembly));

        None(code.Members().Where(used => OfTheMachine().IsMatch(used.Member)).Select(used => $"{used.From.FullName} calls {used.Member}"));
    }

    [Fact]
    public void The_engine_knows_the_signal_layer_and_no_console()
    {
        var references = References(Engine);

        Assert.Contains("DrumPrint.Dsp", references);
        Assert.DoesNotContain("System.Console", references);
        Assert.DoesNotContain(references, name => name.StartsWith("Spectre", StringComparison.Ordinal) || name.StartsWith("System.CommandLine", StringComparison.Ordinal));
        Assert.DoesNotContain("drumprint", references);
    }

    [Fact]
    public void The_engine_and_the_signal_layer_know_no_web_server() =>
        Assert.All(References(Dsp).Concat(References(Engine)), name => Assert.False(name.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal) || name == "DrumPrint.Bench", name));

    [Fact]
    public void The_bench_knows_no_console_and_not_the_command_line() =>
        Assert.All(References(Bench), name => Assert.False(name is "System.Console" or "drumprint" || name.StartsWith("Spectre", StringComparison.Ordinal) || name.StartsWith("System.CommandLine", StringComparison.Ordinal), name));

    [Theory]
    [InlineData("drumprint")]
    [InlineData("DrumPrint.Bench")]
    public void The_command_line_and_the_bench_know_how_nothing_is_computed(string assembly)
    {
        using var code = new CompiledReferences(Assembly.Load(assembly));

        var computing =
            from used in code.Types()
            let space = CompiledReferences.NamespaceOf(used.To)
            where space.StartsWith("DrumPrint.Dsp.", StringComparison.Ordinal) && space is not ("DrumPrint.Dsp.Metering" or "DrumPrint.Dsp.Numerics" or "DrumPrint.Dsp.Parameters")
            select $"{used.From.FullName} uses {used.To.FullName}";

        None(computing);
    }

    // As one text, so that a failure names them all.
    private static void None(IEnumerable<string> found)
    {
        var text = string.Join('\n', found.Distinct());
        Assert.True(text.Length == 0, text);
    }

    private static List<string> References(Assembly assembly) => [.. assembly.GetReferencedAssemblies().Select(a => a.Name!)];

    private static bool IsRuntime(string name) => name.StartsWith("System.", StringComparison.Ordinal);

    private static bool IsAllowed(TypeReference type)
    {
        var space = CompiledReferences.NamespaceOf(type);
        return Namespaces.Contains(space)
            || (space == "System" && Types.Contains(type.Name))
            || FullNames.Contains(type.FullName)
            || Members.Any(m => m.StartsWith(type.FullName + ".", StringComparison.Ordinal))
            || type.Name.EndsWith("Attribute", StringComparison.Ordinal);
    }

    private static bool IsCompilers(Mono.Cecil.ICustomAttributeProvider written) =>
        written.CustomAttributes.Any(a => a.AttributeType.Name == "CompilerGeneratedAttribute") || (written is TypeDefinition { DeclaringType: not null } type && type.Name[0] == '<');

    [GeneratedRegex(@"^System\.(Math|MathF|Double|Single|Half|Numerics\.(Vector|Complex|I\w+`1)|Numerics\.Tensors\.\w+|Runtime\.Intrinsics\.[\w.`]+)\.(A?(Sin|Cos|Tan)h?(Pi)?|SinCos(Pi)?|Atan2(Pi)?|Exp(2|10)?(M1)?|Log(2|10)?(P1)?|Pow|Cbrt|RootN|Hypot|\w*Estimate\w*|Reciprocal\w*)$")]
    private static partial Regex OfTheMachine();
}
