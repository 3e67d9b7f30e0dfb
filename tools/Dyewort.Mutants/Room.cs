using System.Reflection;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Diagnostics;

namespace Dyewort.Mutants;

/// <summary>A room's sources, compiled again and again in memory with one mutant at a time.</summary>
/// <remarks>Compiling a room takes a fraction of a second once the compiler is warm. That is less than a switch in every expression would
/// cost the loops, and constants and patterns can be changed as well.</remarks>
internal sealed class Room
{
    private readonly CSharpCompilation compilation;
    private readonly ResourceDescription[] resources;

    private Room(CSharpCompilation compilation, ResourceDescription[] resources) =>
        (this.compilation, this.resources) = (compilation, resources);

    /// <summary>Reads a room that was built.</summary>
    /// <param name="root">The repository.</param>
    /// <param name="name">The project, such as <c>Dyewort.Readings</c>.</param>
    /// <param name="bin">The folder of its built tests.</param>
    public static Room Read(string root, string name, string bin)
    {
        var options = new CSharpParseOptions(LanguageVersion.Latest);
        var generated = Path.Combine(root, "artifacts", "obj", name, "release");
        var trees = Directory
            .EnumerateFiles(Path.Combine(root, "src", name), "*.cs", SearchOption.AllDirectories)
            .Concat([Path.Combine(generated, $"{name}.GlobalUsings.g.cs"), Path.Combine(generated, $"{name}.AssemblyInfo.cs")])
            .Order(StringComparer.Ordinal)
            .Select(file => CSharpSyntaxTree.ParseText(File.ReadAllText(file), options, file));
        var runtime = Path.GetDirectoryName(typeof(object).Assembly.Location)!;
        var references = Directory
            .EnumerateFiles(runtime, "*.dll")
            .Concat(Directory.EnumerateFiles(bin, "*.dll").Where(file => Path.GetFileNameWithoutExtension(file) != name))
            .Where(IsManaged)
            .DistinctBy(Path.GetFileName)
            .Select(file => MetadataReference.CreateFromFile(file));
        var plain = CSharpCompilation.Create(
            name,
            trees,
            references,
            new CSharpCompilationOptions(
                OutputKind.DynamicallyLinkedLibrary,
                optimizationLevel: OptimizationLevel.Release,
                nullableContextOptions: NullableContextOptions.Disable,
                allowUnsafe: true
            )
        );
        var packs = Path.Combine(runtime, "..", "..", "..", "packs", "Microsoft.NETCore.App.Ref");
        var regex = Directory
            .EnumerateFiles(packs, "System.Text.RegularExpressions.Generator.dll", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal)
            .Last();
        var generators = new AnalyzerFileReference(regex, new Loader()).GetGenerators(LanguageNames.CSharp);
        CSharpGeneratorDriver.Create(generators, parseOptions: options).RunGeneratorsAndUpdateCompilation(plain, out var whole, out _);
        return new((CSharpCompilation)whole, Resources(Path.Combine(bin, $"{name}.dll")));
    }

    /// <summary>All mutants of the files whose name contains one of the given words; of all files without a word.</summary>
    public IReadOnlyList<Mutant> Mutants(IReadOnlyList<string> words) =>
        [
            .. Own()
                .Where(tree =>
                    words.Count == 0 || words.Any(word => Path.GetFileName(tree.FilePath).Contains(word, StringComparison.Ordinal))
                )
                .SelectMany(tree => MutantFinder.In(compilation.GetSemanticModel(tree))),
        ];

    /// <summary>Writes the room with one mutant, or as it is; false where it does not compile.</summary>
    public bool Write(Mutant? mutant, string file)
    {
        var changed = compilation;
        if (mutant is not null)
        {
            var text = mutant.Tree.GetText().WithChanges(new Microsoft.CodeAnalysis.Text.TextChange(mutant.Span, mutant.Text));
            changed = compilation.ReplaceSyntaxTree(mutant.Tree, mutant.Tree.WithChangedText(text));
        }

        return Emit(changed, file, out var why) || (mutant is null ? throw new InvalidOperationException(why) : false);
    }

    /// <summary>Writes the room with notes at the start of every member.</summary>
    public Reached WriteNoted(string file)
    {
        var reached = new Reached();
        var noted = compilation;
        foreach (var tree in Own())
            noted = noted.ReplaceSyntaxTree(tree, tree.WithChangedText(reached.Note(tree)));
        noted = noted.AddSyntaxTrees(CSharpSyntaxTree.ParseText(reached.Notes, (CSharpParseOptions)noted.SyntaxTrees.First().Options));
        if (!Emit(noted, file, out var why))
            throw new InvalidOperationException(why);
        return reached;
    }

    private IEnumerable<SyntaxTree> Own() =>
        compilation.SyntaxTrees.Where(tree =>
            tree.FilePath.EndsWith(".cs", StringComparison.Ordinal)
            && !tree.FilePath.EndsWith(".g.cs", StringComparison.Ordinal)
            && !tree.FilePath.EndsWith("AssemblyInfo.cs", StringComparison.Ordinal)
        );

    private bool Emit(CSharpCompilation what, string file, out string why)
    {
        using var memory = new MemoryStream();
        var result = what.Emit(memory, manifestResources: resources);
        why = string.Join('\n', result.Diagnostics.Where(one => one.DefaultSeverity == DiagnosticSeverity.Error));
        if (result.Success)
            File.WriteAllBytes(file, memory.ToArray());
        return result.Success;
    }

    private static ResourceDescription[] Resources(string built)
    {
        var bytes = File.ReadAllBytes(built);
        var assembly = Assembly.Load(bytes);
        return
        [
            .. assembly
                .GetManifestResourceNames()
                .Select(name => new ResourceDescription(name, () => assembly.GetManifestResourceStream(name)!, isPublic: true)),
        ];
    }

    private static bool IsManaged(string file)
    {
        try
        {
            AssemblyName.GetAssemblyName(file);
            return true;
        }
        catch (BadImageFormatException)
        {
            return false;
        }
    }

    private sealed class Loader : IAnalyzerAssemblyLoader
    {
        public void AddDependencyLocation(string fullPath) { }

        public Assembly LoadFromPath(string fullPath) => Assembly.LoadFrom(fullPath);
    }
}
