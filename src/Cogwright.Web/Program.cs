using Cogwright.Web;
using Cogwright.Web.Bikes;
using Cogwright.Web.Measuring;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddSingleton<IBikeShelf, MemoryShelf>();
builder.Services.AddSingleton<Workbench>();
builder.Services.AddSingleton<SceneScreen>();
builder.Services.AddSingleton<MeasuringDesk>();
await builder.Build().RunAsync().ConfigureAwait(false);
