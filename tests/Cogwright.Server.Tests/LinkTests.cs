using System.Net;
using System.Net.Http.Json;
using System.Text;

namespace Cogwright.Server.Tests;

public sealed class LinkTests
{
    private static readonly string Path = $"api/v1/jobs/{Bench.Job(1)}/links";

    [Fact]
    public async Task Link_ThatHolds_ShowsItsJob_ToSomebodyWithoutASession()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await JobTests.SendAsync(owner, Bench.Job(1), new Bench(1, Bench.Job(1)).WriteMany(2));

        var link = await MakeAsync(owner);
        var record = await running
            .NewBrowser(sendsHeader: false)
            .GetFromJsonAsync<RecordAnswer>(link.Address);

        Assert.Equal(Bench.Job(1).Value, record!.Job);
        Assert.Equal(2, record.Entries.Count);
    }

    [Fact]
    public async Task Link_Ended_Revoked_OrNeverMade_IsAnsweredAlike()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await JobTests.SendAsync(owner, Bench.Job(1), new Bench(1, Bench.Job(1)).Write());
        var revoked = await MakeAsync(owner);
        var ended = await MakeAsync(owner, days: 1);
        (await owner.DeleteAsync($"{Path}/{revoked.Id}")).EnsureSuccessStatusCode();
        running.Clock.Advance(TimeSpan.FromDays(1));
        var customer = running.NewBrowser(sendsHeader: false);

        var answers = new List<(HttpStatusCode, string)>();
        foreach (
            var address in new[]
            {
                revoked.Address,
                ended.Address,
                "record/never",
                "record/" + Tokens.New(),
            }
        )
        {
            var answer = await customer.GetAsync(address);
            answers.Add((answer.StatusCode, await answer.Content.ReadAsStringAsync()));
        }

        Assert.Single(answers.Distinct());
        Assert.Equal(HttpStatusCode.NotFound, answers[0].Item1);
    }

    [Fact]
    public async Task Token_Has256Bits_AndIsNowhereInTheStore()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await JobTests.SendAsync(owner, Bench.Job(1), new Bench(1, Bench.Job(1)).Write());
        var token = (await MakeAsync(owner)).Address.Split('/')[^1];
        Assert.Equal(43, token.Length);

        foreach (var file in Directory.GetFiles(running.Options.Store.DataFolder, "shop.db*"))
        {
            await using var stream = new FileStream(
                file,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite
            );
            var bytes = new byte[stream.Length];
            await stream.ReadExactlyAsync(bytes);
            Assert.Equal(-1, bytes.AsSpan().IndexOf(Encoding.ASCII.GetBytes(token)));
        }
    }

    [Fact]
    public async Task Link_ToAJobThatIsNotHere_IsNotMade()
    {
        await using var running = await Running.StartAsync();

        var answer = await running.NewBrowser().PostAsJsonAsync(Path, new NewLink());

        Assert.Equal("not-found", await Running.ProblemOfAsync(answer));
    }

    private static async Task<NewLinkAnswer> MakeAsync(HttpClient browser, int? days = null)
    {
        var answer = await browser.PostAsJsonAsync(Path, new NewLink(days));
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<NewLinkAnswer>())!;
    }
}
