using Cogwright.Web;
using Cogwright.Web.Bikes;
using Cogwright.Web.Device;
using Cogwright.Web.Measuring;
using Cogwright.Web.Parts;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddDevice(builder.HostEnvironment.BaseAddress);
builder.Services.AddSingleton<PartShelf>();
builder.Services.AddSingleton<Workbench>();
builder.Services.AddSingleton<SceneScreen>();
builder.Services.AddSingleton<PageScreen>();
builder.Services.AddSingleton<Cogwright.Web.Plots.PlotScreen>();
builder.Services.AddSingleton<BikeSummaries>();
builder.Services.AddSingleton<Cogwright.Web.Quick.QuickDraft>();
builder.Services.AddSingleton<MeasuringDesk>();
await builder.Build().RunAsync().ConfigureAwait(false);
