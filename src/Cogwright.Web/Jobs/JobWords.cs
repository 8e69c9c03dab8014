using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Web.WorkTargets;

namespace Cogwright.Web.Jobs;

/// <summary>The work in a mechanic's words.</summary>
internal static class JobWords
{
    /// <summary>How a step stands, in words.</summary>
    internal static string Of(StepStanding standing) => Texts.Get("job.standing." + standing);

    /// <summary>The sign of it, never without the words.</summary>
    internal static string Sign(StepStanding standing) =>
        standing switch
        {
            StepStanding.Good => "✓",
            StepStanding.NotGood => "✕",
            StepStanding.Recheck => "?",
            StepStanding.Blocked => "■",
            StepStanding.Excepted => "!",
            StepStanding.Superseded or StepStanding.Rough => "–",
            _ => "○",
        };

    /// <summary>What happened, as a sentence.</summary>
    internal static string Of(Cause cause, BikeWork work) =>
        cause.Fact switch
        {
            ChangeMade made when BikeChanges.Find(made.Change) is { } change => made.Note.Length > 0
                ? Texts.Get("job.cause.noted", change.About, made.Note)
                : change.About,
            FiguresChanged figures => Texts.Get(
                "job.cause.figures",
                string.Join(", ", figures.Parts.Select(StepWords.Part))
            ),
            StepDone when cause.Run >= 0 => Texts.Get(
                "job.cause.step",
                work.Runs[cause.Run].Procedure.Steps[cause.Step].Action
            ),
            _ => "",
        };

    /// <summary>Why a result is to be rechecked: from what happened, along what rests on it.</summary>
    internal static ImmutableArray<string> Why(RecheckMark mark, JobReview review, BikeWork work) =>
        [
            .. review
                .ChainOf(mark)
                .Reverse()
                .Select(reason =>
                    reason.Cause is { } cause ? Of(cause, work)
                    : reason.From is { } from
                        ? Texts.Get(
                            "job.cause.rests",
                            work.Runs[from.Run].Procedure.Steps[from.Step].Action
                        )
                    : ""
                )
                .Where(text => text.Length > 0),
        ];

    /// <summary>What a step came to, in a few words.</summary>
    internal static string Of(StepDone done) =>
        done.Value is { } value
            ? Texts.Get(
                done.Unit.Length > 0 ? "job.came.value" : "job.came.number",
                value,
                Texts.Get("job.outcome." + done.Outcome),
                done.Unit
            )
            : Texts.Get("job.outcome." + done.Outcome);

    /// <summary>Limits as figures to be read from afar.</summary>
    internal static string? Of(StepAim aim) => AimWords.Of(aim.Lower, aim.Value, aim.Upper);

    /// <summary>What always has to be known of a job that may have been left at any moment, by name; what is not so is left out.</summary>
    internal static IEnumerable<(string Name, string Text)> LineOf(
        BikeWork work,
        JobReview review,
        Job job,
        int conflicts
    )
    {
        if (conflicts > 0)
        {
            yield return ("twice", Texts.Get("job.line.results", conflicts));
        }
        if (review.LastVerifiedOf(job.Id) is { } last)
        {
            yield return (
                "verified",
                $"{ActionAt(last)}: {Of(work.Runs[last.Run].Results[last.Step]!.Done)}"
            );
        }
        if (review.OpenTorquesOf(job.Id) is { IsEmpty: false } torques)
        {
            yield return ("torques", string.Join(", ", torques.Select(StepWords.Fastener)));
        }
        if (review.RoughOf(job.Id) is { IsEmpty: false } rough)
        {
            yield return ("rough", StepWords.Adjusters(rough));
        }
        if (review.Recheck.Marks.Count() is > 0 and var marks)
        {
            yield return ("recheck", Texts.Get("job.line.results", marks));
        }
        if (review.NextOf(job.Id) is { } next)
        {
            yield return ("next", ActionAt(next));
        }
        else if (review.FirstBlockedOf(job.Id) is { } blocked)
        {
            yield return ("blocked", ActionAt(blocked));
        }

        string ActionAt(StepPlace place) => work.Runs[place.Run].Procedure.Steps[place.Step].Action;
    }

    /// <summary>Whether something of <see cref="LineOf"/> waits to be mended.</summary>
    internal static bool IsOpen(string name) =>
        name is "twice" or "recheck" or "blocked" or "torques" or "rough";
}
