using System.Net;
using System.Net.Http.Json;

namespace Cogwright.Server.Tests;

public sealed class SessionTests
{
    internal static Task<HttpResponseMessage> ByPinAsync(
        HttpClient tablet,
        Guid account,
        string pin = Running.Pin
    ) => tablet.PutAsJsonAsync("api/v1/session/person", new PersonAtDevice(account, pin));

    [Fact]
    public async Task Session_Revoked_IsRefusedAtOnce()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);
        var milo = await running.LogInAsync("milo");
        var session = (await Running.SessionOfAsync(milo)).Session;
        Assert.Equal(HttpStatusCode.OK, (await milo.GetAsync("api/v1/jobs")).StatusCode);

        Assert.Equal(
            HttpStatusCode.NoContent,
            (await owner.DeleteAsync($"api/v1/sessions/{session}")).StatusCode
        );

        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(await milo.GetAsync("api/v1/jobs"))
        );
    }

    [Fact]
    public async Task Session_OfAnother_IsNotAMechanicsToRevoke()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);
        var milo = await running.LogInAsync("milo");
        var session = (await Running.SessionOfAsync(owner)).Session;

        Assert.Equal(
            "not-found",
            await Running.ProblemOfAsync(await milo.DeleteAsync($"api/v1/sessions/{session}"))
        );
        Assert.Single((await milo.GetFromJsonAsync<OpenSession[]>("api/v1/sessions"))!);
        Assert.Equal(2, (await owner.GetFromJsonAsync<OpenSession[]>("api/v1/sessions"))!.Length);
    }

    [Fact]
    public async Task Session_AfterItsTime_HasEnded()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();

        running.Clock.Advance(running.Options.SessionLife);

        Assert.Equal("nobody", (await Running.SessionOfAsync(owner)).Role);
    }

    [Fact]
    public async Task LogOut_EndsTheSessionOnTheServer()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        Assert.Equal(
            HttpStatusCode.NoContent,
            (await owner.DeleteAsync("api/v1/session")).StatusCode
        );

        await using var data = running.Server.Store.NewContext();
        Assert.NotNull(Assert.Single(data.DeviceSessions).RevokedTicks);
    }

    [Fact]
    public async Task Account_SwitchedOff_IsOutAtOnce_AndCannotLogIn()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);
        var milo = await running.LogInAsync("milo");

        (
            await owner.PatchAsJsonAsync($"api/v1/people/{id}", new ChangedPerson(Active: false))
        ).EnsureSuccessStatusCode();

        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(await milo.GetAsync("api/v1/jobs"))
        );
        var again = await running
            .NewBrowser()
            .PostAsJsonAsync("api/v1/session", new LogIn("milo", Running.Password));
        Assert.Equal("wrong-log-in", await Running.ProblemOfAsync(again));
    }

    [Fact]
    public async Task Role_Changed_CountsAtTheNextRequest()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);
        var milo = await running.LogInAsync("milo");

        (
            await owner.PatchAsJsonAsync(
                $"api/v1/people/{id}",
                new ChangedPerson(Role: Roles.Guest)
            )
        ).EnsureSuccessStatusCode();

        Assert.Equal(Roles.Guest, (await Running.SessionOfAsync(milo)).Role);
    }

    [Fact]
    public async Task LastOwner_CanNeitherLeaveNorBecomeAnything()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = (await Running.SessionOfAsync(owner)).Account;

        foreach (var change in new ChangedPerson[] { new(Active: false), new(Role: Roles.Guest) })
        {
            var answer = await owner.PatchAsJsonAsync($"api/v1/people/{id}", change);
            Assert.Equal("last-owner", await Running.ProblemOfAsync(answer));
        }
        Assert.Equal(Roles.Owner, (await Running.SessionOfAsync(owner)).Role);
    }

    [Fact]
    public async Task Password_Changed_EndsTheOtherSessions()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var other = await running.LogInAsync("ines");

        var wrong = await owner.PutAsJsonAsync(
            "api/v1/session/password",
            new NewOwnPassword("a guess that is wrong", "another long one")
        );
        Assert.Equal("wrong-log-in", await Running.ProblemOfAsync(wrong));
        var right = await owner.PutAsJsonAsync(
            "api/v1/session/password",
            new NewOwnPassword(Running.Password, "another long one")
        );

        Assert.Equal(HttpStatusCode.NoContent, right.StatusCode);
        Assert.Equal(Roles.Owner, (await Running.SessionOfAsync(owner)).Role);
        Assert.Equal("nobody", (await Running.SessionOfAsync(other)).Role);
    }

    [Fact]
    public async Task Password_ThatIsShort_IsRefused_WithoutLeavingAnAccount()
    {
        await using var running = await Running.StartAsync();

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync("api/v1/owner", new NewOwner("ines", "Ines", "short"));

        Assert.Equal("refused-account", await Running.ProblemOfAsync(answer));
        await running.NewOwnerAsync();
    }

    [Fact]
    public async Task Pin_AtATrustedDevice_ChangesThePerson()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);
        await Running.SetPinAsync(await running.LogInAsync("milo"));
        var tablet = await running.LogInAsync("ines", trustDevice: true);
        Assert.Equal((Roles.Guest, null), RoleAndAccount(await Running.SessionOfAsync(tablet)));

        (await ByPinAsync(tablet, id)).EnsureSuccessStatusCode();

        var session = await Running.SessionOfAsync(tablet);
        Assert.Equal((Roles.Mechanic, id), RoleAndAccount(session));
        Assert.True(session is { IsByPin: true, IsTrustedDevice: true });

        (await tablet.DeleteAsync("api/v1/session/person")).EnsureSuccessStatusCode();
        Assert.Equal((Roles.Guest, null), RoleAndAccount(await Running.SessionOfAsync(tablet)));
    }

    [Fact]
    public async Task Pin_AtAnyOtherDevice_OpensNothing()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = (await Running.SessionOfAsync(owner)).Account!.Value;
        await Running.SetPinAsync(owner);
        await Running.MakePersonAsync(owner, "gast", Roles.Guest);

        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(await ByPinAsync(running.NewBrowser(), id))
        );
        Assert.Equal(
            "not-trusted",
            await Running.ProblemOfAsync(await ByPinAsync(await running.LogInAsync("gast"), id))
        );
    }

    [Fact]
    public async Task Person_AtATrustedDevice_LeavesAfterAWhile_AndWithANewPin()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = (await Running.SessionOfAsync(owner)).Account!.Value;
        await Running.SetPinAsync(owner);
        var tablet = await running.LogInAsync("ines", trustDevice: true);

        (await ByPinAsync(tablet, id)).EnsureSuccessStatusCode();
        running.Clock.Advance(running.Options.PersonLife);
        Assert.Equal(Roles.Guest, (await Running.SessionOfAsync(tablet)).Role);

        (await ByPinAsync(tablet, id)).EnsureSuccessStatusCode();
        await Running.SetPinAsync(owner, "9630");
        Assert.Equal(Roles.Guest, (await Running.SessionOfAsync(tablet)).Role);
    }

    [Fact]
    public async Task PersonOfOneDevice_TakenToAnother_IsNobody()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = (await Running.SessionOfAsync(owner)).Account!.Value;
        await Running.SetPinAsync(owner);
        var first = await running.LogInAsync("ines", trustDevice: true);
        var second = await running.LogInAsync("ines", trustDevice: true);
        var told = await ByPinAsync(first, id);
        var person = told.Headers.GetValues("Set-Cookie").Single().Split(';')[0];

        second.DefaultRequestHeaders.Add("Cookie", person);

        Assert.Equal(Roles.Guest, (await Running.SessionOfAsync(second)).Role);
    }

    [Fact]
    public async Task Mechanic_CannotMakeADeviceATrustedOne()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await Running.MakePersonAsync(owner, "milo", Roles.Mechanic);

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync(
                "api/v1/session",
                new LogIn("milo", Running.Password, TrustDevice: true)
            );

        Assert.Equal("not-allowed", await Running.ProblemOfAsync(answer));
    }

    private static (string Role, Guid? Account) RoleAndAccount(SessionAnswer session) =>
        (session.Role, session.Account);
}
