using Cogwright.Server;
using Spectre.Console.Cli;

var app = new CommandApp<ServeCommand>();
app.Configure(config =>
{
    config.SetApplicationName("./run");
    config.UseStrictParsing();
});
return await app.RunAsync(args).ConfigureAwait(false);
