using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Cogwright.Architecture.Tests;

/// <summary>
/// Finds everything that compiled code refers to: in declarations, attributes and the bodies of
/// methods. Sources would not do (an alias or a `using static` hides a name), nor would the list of
/// referenced types (a clock is read through a property of a type that is harmless otherwise).
/// </summary>
public static class UseScan
{
    /// <summary>The uses in the whole assembly of a room.</summary>
    public static IReadOnlyList<Use> Of(Room room)
    {
        using var assembly = Open(room.AssemblyName);
        return [.. assembly.MainModule.GetTypes().SelectMany(UsesOf)];
    }

    /// <summary>The uses in one type of this test assembly, and in what is nested in it.</summary>
    public static IReadOnlyList<Use> Of(Type type)
    {
        using var assembly = Open(type.Assembly.GetName().Name!);
        return
        [
            .. assembly
                .MainModule.GetTypes()
                .Where(each => Outermost(each).FullName == type.FullName)
                .SelectMany(UsesOf),
        ];
    }

    /// <summary>The names of the assemblies that the assembly of a room refers to.</summary>
    public static IReadOnlyList<string> AssembliesSeenBy(Room room)
    {
        using var assembly = Open(room.AssemblyName);
        return [.. assembly.MainModule.AssemblyReferences.Select(reference => reference.Name)];
    }

    /// <summary>The types that a room declares itself, generic arity left out.</summary>
    public static IReadOnlyList<(string Namespace, string Name)> TypesOf(Room room)
    {
        using var assembly = Open(room.AssemblyName);
        return
        [
            .. assembly
                .MainModule.GetTypes()
                .Where(type => !IsWrittenByCompiler(type) && type.Name != "<Module>")
                .Select(type => (Outermost(type).Namespace, type.Name.Split('`')[0])),
        ];
    }

    private static AssemblyDefinition Open(string assemblyName) =>
        AssemblyDefinition.ReadAssembly(
            Path.Combine(AppContext.BaseDirectory, assemblyName + ".dll"),
            new ReaderParameters { InMemory = true }
        );

    private static IEnumerable<Use> UsesOf(TypeDefinition type)
    {
        foreach (var (member, target) in DeclaredBy(type).Concat(type.Methods.SelectMany(CalledBy)))
        {
            foreach (var named in TypesIn(target as TypeReference ?? target.DeclaringType))
            {
                yield return new Use(
                    Outermost(type).Namespace,
                    PathOf(type),
                    member,
                    IsWrittenByCompiler(type),
                    named.Scope is ModuleDefinition module
                        ? module.Assembly.Name.Name
                        : named.Scope.Name,
                    named.FullName.Replace('/', '.'),
                    target is TypeReference ? "" : Signature(target)
                );
            }
        }
    }

    private static IEnumerable<(string Member, MemberReference Target)> DeclaredBy(
        TypeDefinition type
    )
    {
        IEnumerable<(string, MemberReference?)> found =
        [
            ("", type.BaseType),
            .. type.Interfaces.Select(each => ("", (MemberReference?)each.InterfaceType)),
            .. AttributesOf("", type),
            .. ConstraintsOf("", type),
            .. type.Fields.Select(field => (field.Name, (MemberReference?)field.FieldType)),
            .. type.Fields.SelectMany(field => AttributesOf(field.Name, field)),
            .. type.Properties.SelectMany(property => AttributesOf(property.Name, property)),
            .. type.Events.SelectMany(each => AttributesOf(each.Name, each)),
        ];
        return found
            .Where(each => each.Item2 is not null)
            .Select(each => (each.Item1, each.Item2!));
    }

    private static IEnumerable<(string Member, MemberReference Target)> CalledBy(
        MethodDefinition method
    )
    {
        IEnumerable<(string, MemberReference?)> found =
        [
            (method.Name, method.ReturnType),
            .. method.Parameters.Select(each =>
                (method.Name, (MemberReference?)each.ParameterType)
            ),
            .. method.Parameters.SelectMany(each => AttributesOf(method.Name, each)),
            .. AttributesOf(method.Name, method),
            .. ConstraintsOf(method.Name, method),
        ];
        if (method.HasBody)
        {
            found =
            [
                .. found,
                .. method.Body.Variables.Select(each =>
                    (method.Name, (MemberReference?)each.VariableType)
                ),
                .. method.Body.ExceptionHandlers.Select(each =>
                    (method.Name, (MemberReference?)each.CatchType)
                ),
                .. method.Body.Instructions.SelectMany(each => Operands(method.Name, each)),
            ];
        }
        return found
            .Where(each => each.Item2 is not null)
            .Select(each => (each.Item1, each.Item2!));
    }

    private static IEnumerable<(string, MemberReference?)> Operands(
        string member,
        Instruction instruction
    )
    {
        if (instruction.Operand is not MemberReference target)
        {
            yield break;
        }
        yield return (member, target);
        if (target is GenericInstanceMethod generic)
        {
            foreach (var argument in generic.GenericArguments)
            {
                yield return (member, argument);
            }
        }
    }

    private static IEnumerable<(string, MemberReference?)> AttributesOf(
        string member,
        ICustomAttributeProvider owner
    ) => owner.CustomAttributes.Select(each => (member, (MemberReference?)each.Constructor));

    private static IEnumerable<(string, MemberReference?)> ConstraintsOf(
        string member,
        IGenericParameterProvider owner
    ) =>
        owner
            .GenericParameters.SelectMany(each => each.Constraints)
            .Select(each => (member, (MemberReference?)each.ConstraintType));

    /// <summary>The type itself, or for an array, a by-ref or a generic one all that it is made of.</summary>
    private static IEnumerable<TypeReference> TypesIn(TypeReference type)
    {
        switch (type)
        {
            case GenericParameter:
                return [];
            case GenericInstanceType generic:
                return generic.GenericArguments.Append(generic.ElementType).SelectMany(TypesIn);
            case IModifierType modified:
                return TypesIn(modified.ElementType).Concat(TypesIn(modified.ModifierType));
            case FunctionPointerType pointer:
                return pointer
                    .Parameters.Select(each => each.ParameterType)
                    .Append(pointer.ReturnType)
                    .SelectMany(TypesIn);
            case TypeSpecification specification:
                return TypesIn(specification.ElementType);
            default:
                return [type];
        }
    }

    private static string Signature(MemberReference member) =>
        member is MethodReference method
            ? $"{method.Name}({string.Join(",", method.Parameters.Select(each => each.ParameterType.FullName))})"
            : member.Name;

    private static string PathOf(TypeDefinition type) =>
        type.DeclaringType is null ? type.Name : $"{PathOf(type.DeclaringType)}.{type.Name}";

    private static TypeDefinition Outermost(TypeDefinition type) =>
        type.DeclaringType is null ? type : Outermost(type.DeclaringType);

    private static bool IsWrittenByCompiler(TypeDefinition type) =>
        type.Name.StartsWith('<')
        || (type.DeclaringType is not null && IsWrittenByCompiler(type.DeclaringType));
}
