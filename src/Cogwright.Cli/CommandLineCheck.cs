using System.Reflection;
using Spectre.Console.Cli;

namespace Cogwright.Cli;

/// <summary>Refuses what the parser lets through and no command takes; nothing that was asked is left out in silence.</summary>
internal sealed class CommandLineCheck : ICommandInterceptor
{
    // What the parser puts in place of the value of an option that stands last and has none.
    private const string NoValue = "__default_command";

    /// <inheritdoc />
    public void Intercept(CommandContext context, CommandSettings settings)
    {
        if (context.Remaining.Raw is [var first, ..])
        {
            throw new BadInputException(Texts.Get("option.afterDashes", first));
        }
        foreach (var property in settings.GetType().GetProperties())
        {
            if (
                property.GetCustomAttribute<CommandOptionAttribute>() is { } option
                && property.GetValue(settings) is NoValue
            )
            {
                throw new BadInputException(
                    Texts.Get("option.noValue", $"--{option.LongNames[0]}", option.ValueName)
                );
            }
        }
    }
}
