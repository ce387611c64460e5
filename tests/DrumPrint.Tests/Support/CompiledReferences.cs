using Mono.Cecil;
using Mono.Cecil.Cil;

namespace DrumPrint.Tests.Support;

/// <summary>What the code of an assembly refers to, read from the compiled file: bases, interfaces, fields, signatures, attributes, and
/// every instruction of every method.</summary>
/// <remarks>Constants leave no trace in what is compiled, so a namespace that only reads another's constants does not show.</remarks>
internal sealed class CompiledReferences : IDisposable
{
    private readonly AssemblyDefinition _assembly;

    public CompiledReferences(System.Reflection.Assembly assembly) => _assembly = AssemblyDefinition.ReadAssembly(assembly.Location);

    /// <summary>Every type that someone wrote, and what the compiler put inside them; its own types at the top are left out.</summary>
    public IEnumerable<TypeDefinition> Written => _assembly.MainModule.Types.Where(t => t.Name[0] != '<').SelectMany(WithNested);

    /// <summary>Every type of the assembly with the types it refers to, itself and generic placeholders left out.</summary>
    public IEnumerable<(TypeDefinition From, TypeReference To)> Types() =>
        from type in Written
        from seen in TypesOf(type).SelectMany(Parts).DistinctBy(t => t.FullName)
        select (type, seen);

    /// <summary>Every member of another assembly that is called or read, as "Namespace.Type.Member", with the type that does.</summary>
    public IEnumerable<(TypeDefinition From, string Member)> Members() =>
        from type in Written
        from method in type.Methods.Where(m => m.HasBody)
        from instruction in method.Body.Instructions
        where instruction.Operand is MemberReference { DeclaringType: not null } and not TypeReference
        let member = (MemberReference)instruction.Operand
        select (type, $"{member.DeclaringType.GetElementType().FullName.Replace('/', '.')}.{member.Name}");

    /// <summary>The namespace of a type, or of the type it lies in.</summary>
    public static string NamespaceOf(TypeReference type) => type.DeclaringType is { } outer ? NamespaceOf(outer) : type.Namespace;

    public void Dispose() => _assembly.Dispose();

    private static IEnumerable<TypeDefinition> WithNested(TypeDefinition type) => type.NestedTypes.SelectMany(WithNested).Prepend(type);

    private static IEnumerable<TypeReference?> TypesOf(TypeDefinition type) =>
    [
        type.BaseType,
        .. type.Interfaces.Select(i => i.InterfaceType),
        .. type.GenericParameters.SelectMany(g => g.Constraints).Select(c => c.ConstraintType),
        .. type.Fields.Select(f => f.FieldType),
        .. type.Properties.Select(p => p.PropertyType),
        .. type.Events.Select(e => e.EventType),
        .. type.CustomAttributes.Select(a => a.AttributeType),
        .. type.Methods.SelectMany(TypesOf),
    ];

    private static IEnumerable<TypeReference?> TypesOf(MethodDefinition method) =>
    [
        .. TypesOf((MethodReference)method),
        .. method.CustomAttributes.Select(a => a.AttributeType),
        .. method.GenericParameters.SelectMany(g => g.Constraints).Select(c => c.ConstraintType),
        .. method.Overrides.SelectMany(TypesOf),
        .. method.HasBody ? TypesOf(method.Body) : [],
    ];

    private static IEnumerable<TypeReference?> TypesOf(MethodBody body) =>
    [
        .. body.Variables.Select(v => v.VariableType),
        .. body.ExceptionHandlers.Select(h => h.CatchType),
        .. body.Instructions.SelectMany(i => TypesOf(i.Operand)),
    ];

    private static IEnumerable<TypeReference?> TypesOf(object? operand) => operand switch
    {
        TypeReference type => [type],
        FieldReference field => [field.DeclaringType, field.FieldType],
        MethodReference method => TypesOf(method),
        _ => [],
    };

    private static IEnumerable<TypeReference?> TypesOf(MethodReference method) =>
    [
        method.DeclaringType,
        method.ReturnType,
        .. method.Parameters.Select(p => p.ParameterType),
        .. method is GenericInstanceMethod generic ? generic.GenericArguments : [],
    ];

    // Array of T is T; a generic type is itself and its arguments.
    private static IEnumerable<TypeReference> Parts(TypeReference? type) => type switch
    {
        null or GenericParameter => [],
        GenericInstanceType generic => generic.GenericArguments.SelectMany(Parts).Prepend(generic.ElementType),
        TypeSpecification specification => Parts(specification.ElementType),
        _ => [type],
    };
}
