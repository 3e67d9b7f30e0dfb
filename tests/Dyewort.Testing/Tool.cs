using System.Diagnostics;

namespace Dyewort.Testing;

/// <summary>An independent program of the machine that a test compares with or looks through.</summary>
public static class Tool
{
    /// <summary>Runs a program and returns its exit code and what it said.</summary>
    /// <exception cref="TimeoutException">It did not end in time; it was stopped.</exception>
    public static (int ExitCode, string Output, string Error) Run(
        string program,
        IEnumerable<string> arguments,
        TimeSpan limit,
        string? folder = null
    )
    {
        var start = new ProcessStartInfo(program)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            WorkingDirectory = folder ?? "",
        };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"{program} did not end within {limit.TotalSeconds:0} s.");
        }

        return (process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
    }

    /// <summary>The full path of a program on this machine, or null.</summary>
    public static string? Find(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Select(folder => Path.Combine(folder, program))
            .FirstOrDefault(File.Exists);
}
