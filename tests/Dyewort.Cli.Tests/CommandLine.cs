using System.Xml.Linq;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Dyewort.Cli.Tests;

/// <summary>The command line run inside the test's own process: what it writes comes back, and several tests may run at once.</summary>
/// <remarks>A process of its own costs a second of start and learns every model anew. <see cref="LiquidCommandTests"/> and
/// <see cref="PrintCommandTests"/> keep running the real program.</remarks>
internal static class CommandLine
{
    private static readonly Spoken Output = Spoken.In(Console.SetOut);
    private static readonly Spoken Error = Spoken.In(Console.SetError);

    /// <summary>Every branch and command as the program itself lists them, outermost first: “”, “pot”, “pot plan” …</summary>
    public static IReadOnlyList<(string Words, bool Json)> All { get; } = List();

    public static (int ExitCode, string Output, string Error) Run(params string[] arguments)
    {
        using StringWriter said = new(),
            aside = new();
        Output.Into(said);
        Error.Into(aside);
        try
        {
            var app = new CommandApp();
            app.Configure(config =>
            {
                Program.Configure(config);
                var console = AnsiConsole.Create(
                    new AnsiConsoleSettings
                    {
                        Ansi = AnsiSupport.No,
                        ColorSystem = ColorSystemSupport.NoColors,
                        Out = new AnsiConsoleOutput(said),
                    }
                );
                console.Profile.Width = 120;
                config.ConfigureConsole(console);
            });
            var code = app.Run(arguments);
            return (code, said.ToString(), aside.ToString());
        }
        finally
        {
            Output.Into(null);
            Error.Into(null);
        }
    }

    private static List<(string, bool)> List()
    {
        var (code, text, error) = Run("cli", "xmldoc");
        if (code != Program.Done)
            throw new InvalidOperationException(error);
        var found = new List<(string, bool)> { ("", false) };
        Visit(XDocument.Parse(text[text.IndexOf('<', StringComparison.Ordinal)..]).Root!, "");
        return found;

        void Visit(XElement parent, string before)
        {
            foreach (var command in parent.Elements("Command"))
            {
                var words = $"{before} {command.Attribute("Name")!.Value}".Trim();
                found.Add(
                    (
                        words,
                        command.Element("Parameters")?.Elements("Option").Any(option => option.Attribute("Long")?.Value == "json") == true
                    )
                );
                Visit(command, words);
            }
        }
    }

    /// <summary>Stands in for one of the console's two streams and hands what is written to the run that writes it.</summary>
    private sealed class Spoken(TextWriter before) : TextWriter
    {
        private readonly AsyncLocal<TextWriter?> run = new();

        public override System.Text.Encoding Encoding => before.Encoding;

        public static Spoken In(Action<TextWriter> set)
        {
            var spoken = new Spoken(set == Console.SetOut ? Console.Out : Console.Error);
            set(spoken);
            return spoken;
        }

        public void Into(TextWriter? writer) => run.Value = writer is null ? null : Synchronized(writer);

        public override void Write(char value) => (run.Value ?? before).Write(value);

        public override void Write(string? value) => (run.Value ?? before).Write(value);

        public override void WriteLine(string? value) => (run.Value ?? before).WriteLine(value);
    }
}
