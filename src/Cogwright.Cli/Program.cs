using Cogwright.Cli;

return CogwrightApp.Run(args);
