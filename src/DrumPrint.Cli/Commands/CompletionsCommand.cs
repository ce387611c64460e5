using System.CommandLine;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary><c>completions SHELL</c>: a script that lets the shell complete commands and options.</summary>
internal static class CompletionsCommand
{
    private const string Bash = """
        # drumprint completion for bash: source this from your .bashrc
        _drumprint() {
          local word="${COMP_WORDS[COMP_CWORD]}" found
          COMPREPLY=()
          while IFS= read -r found; do
            [[ "$found" == "$word"* ]] && COMPREPLY+=("$(printf '%q' "$found")")
          done < <(drumprint "[suggest:$COMP_POINT]" "$COMP_LINE" 2>/dev/null)
        }
        complete -o default -F _drumprint drumprint
        """;

    private const string Zsh = """
        # drumprint completion for zsh: source this from your .zshrc, after compinit
        _drumprint() {
          local -a words_found
          words_found=("${(@f)$(drumprint "[suggest:$CURSOR]" "$BUFFER" 2>/dev/null)}")
          compadd -- $words_found
          _files
        }
        compdef _drumprint drumprint
        """;

    private const string Fish = """
        # drumprint completion for fish: save as ~/.config/fish/completions/drumprint.fish
        complete -c drumprint -a '(drumprint "[suggest:"(string length -- (commandline -cp))"]" (commandline -cp) 2>/dev/null)'
        """;

    private const string PowerShell = """
        # drumprint completion for PowerShell: add this to your $PROFILE
        Register-ArgumentCompleter -Native -CommandName drumprint -ScriptBlock {
          param($word, $line, $cursor)
          drumprint "[suggest:$cursor]" "$line" 2>$null | Where-Object { $_ -like "$word*" } | ForEach-Object {
            $text = if ($_ -match '^[\w./-]+$') { $_ } else { "'" + $_.Replace("'", "''") + "'" }
            [System.Management.Automation.CompletionResult]::new($text, $_, 'ParameterValue', $_)
          }
        }
        """;

    public static Command Create()
    {
        var shell = new Argument<string>("SHELL") { Description = "bash, zsh, fish or powershell.", HelpName = "SHELL" };
        shell.AcceptOnlyFromAmong("bash", "zsh", "fish", "powershell");
        var command = new Command("completions", "Print a script that completes commands and options in your shell.") { shell };
        Guard.Run(command, (parsed, _) =>
        {
            Terminal.TellLines(parsed.GetRequiredValue(shell) switch
            {
                "bash" => Bash,
                "zsh" => Zsh,
                "fish" => Fish,
                _ => PowerShell,
            } + "\n");
            return ExitCode.Done;
        });
        return command;
    }
}
