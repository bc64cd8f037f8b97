//! The impeller on its shaft: which way it turns, and what stops the wrench.

use joint::shaft::{End, Rotation as Turn, Running};
use workshop::entry::{Body, Key};
use workshop::fits::{FitStop, card, turning};
use workshop::fold::Misfit;
use workshop::job::{Pump, Rotation, View};

use super::{IMPELLER, all_checks, checked, described, done, journal, refused, with};
use crate::journal::{Journal, opened, pump};

/// By the right-hand rule, by hand. A right-hand nut that moves away from whoever looks is turned
/// with the clock. Going on from aft the impeller moves forward: away from one who stands behind,
/// towards one who stands ahead and sees every turn the other way round. A left hand turns it over.
#[test]
fn practice_which_way_an_impeller_turns_follows_from_hand_and_ends() {
    use Turn::{Anticlockwise as Against, Clockwise as With};
    for (hand, from, view, tighten) in [
        ("right", "aft", View::LookingForward, With),
        ("right", "aft", View::LookingAft, Against),
        ("left", "aft", View::LookingForward, Against),
        ("left", "aft", View::LookingAft, With),
        ("right", "ahead", View::LookingForward, Against),
        ("right", "ahead", View::LookingAft, With),
        ("left", "ahead", View::LookingForward, With),
        ("left", "ahead", View::LookingAft, Against),
    ] {
        let draft = with(IMPELLER, &[("hand", hand), ("goes_on_from", from)]);
        let mut journal = journal(&draft);
        journal.record(Body::PumpDescribed(Pump { view, ..pump() }));
        let turning = turning(&journal.job(), &draft.read().unwrap()).unwrap();
        let seen = if view == View::LookingForward {
            End::Aft
        } else {
            End::Ahead
        };
        assert_eq!(turning.seen_from, seen, "{hand} {from} {view:?}");
        assert_eq!(turning.tighten, tighten, "{hand} {from} {view:?}");
        assert_eq!(turning.loosen, tighten.reversed(), "{hand} {from} {view:?}");
    }
}

/// By hand, for a right-hand thread that goes on from aft, tightened with the clock as seen from
/// behind. Driven through the thread, the shaft runs ahead of an impeller that water holds back: the
/// impeller turns back against it, so it is tightened when it runs against the clock. An impeller
/// that drags a stub shaft runs ahead of it, and is tightened when it runs with the clock.
#[test]
fn practice_what_running_does_follows_from_the_layout() {
    use Rotation::{Anticlockwise as Against, Clockwise as With};
    let (through, dragging) = ("shaft-drives-impeller", "impeller-drags-shaft");
    let (behind, ahead) = (View::LookingForward, View::LookingAft);
    for (drive, view, rotation, running) in [
        (through, behind, Against, Running::Tightens),
        (through, behind, With, Running::Loosens),
        (dragging, behind, With, Running::BarelyTightens),
        (dragging, behind, Against, Running::BarelyLoosens),
        // The same four pumps, looked at from ahead.
        (through, ahead, With, Running::Tightens),
        (through, ahead, Against, Running::Loosens),
        (dragging, ahead, Against, Running::BarelyTightens),
        (dragging, ahead, With, Running::BarelyLoosens),
    ] {
        let draft = with(IMPELLER, &[("drive", drive)]);
        let mut journal = journal(&draft);
        journal.record(Body::PumpDescribed(Pump {
            view,
            rotation,
            ..pump()
        }));
        let job = journal.job();
        let turning = turning(&job, &draft.read().unwrap()).unwrap();
        assert_eq!(
            turning.running,
            Some(running),
            "{drive} {view:?} {rotation:?}"
        );
        let stop = card(&job, &job.fits[&Key::new("this").unwrap()]).stop;
        assert_eq!(
            stop == Some(FitStop::Unscrews),
            running == Running::Loosens,
            "{drive} {view:?} {rotation:?}"
        );
    }
}

#[test]
fn law_before_the_pump_is_described_nothing_is_said_of_running() {
    let draft = with(IMPELLER, &[]);
    let mut journal = Journal::default();
    journal.act(opened());
    journal.record(described(&draft));
    let job = journal.job();
    let turning = turning(&job, &draft.read().unwrap()).unwrap();
    assert_eq!((turning.running, turning.by_pump), (None, false));
    let card = card(&job, &job.fits[&Key::new("this").unwrap()]);
    assert!(
        card.mind
            .iter()
            .any(|mind| mind.contains("not described yet"))
    );
}

#[test]
fn law_no_impeller_is_tightened_to_a_torque_that_is_not_its_manuals() {
    let draft = with(IMPELLER, &[("torque", ""), ("second", "")]);
    let mut journal = journal(&draft);
    let job = journal.job();
    let card = card(&job, &job.fits[&Key::new("this").unwrap()]);
    assert_eq!(card.stop, Some(FitStop::NoTorque));
    for line in &card.lines {
        assert!(!line.words.contains("N·m"), "{}", line.words);
        assert!(!line.words.contains("lbf"), "{}", line.words);
    }
    assert_eq!(
        refused(&mut journal, checked(&draft, "clean tightened", "")),
        "Do not tighten yet. No torque is stated for the impeller, and no other stands in for it. \
         Find it in the craft’s manual; until then the joint stays open."
    );
    journal.record(checked(
        &draft,
        "clean compound holder-seated turns-free",
        "",
    ));
    assert!(!done(&journal, &draft));
}

#[test]
fn law_figures_that_differ_and_a_thread_that_unscrews_stop_the_wrench() {
    let differ = with(IMPELLER, &[("second", "7.7")]);
    let said = refused(&mut journal(&differ), checked(&differ, "tightened", ""));
    // Which of the two was meant is not guessed.
    assert_eq!(
        said,
        "Do not tighten yet. The manual’s figures 105\u{a0}N·m and 7.7\u{a0}lbf·ft do not agree. \
         Look them up again and mend one."
    );
    // Right hand from aft, driven through the thread, running with the clock: worked by hand above.
    let unscrews = with(IMPELLER, &[("drive", "shaft-drives-impeller")]);
    let said = refused(&mut journal(&unscrews), checked(&unscrews, "tightened", ""));
    assert!(said.contains("would unscrew this impeller"), "{said}");
}

#[test]
fn law_a_figure_taken_away_after_tightening_is_an_objection() {
    let draft = with(IMPELLER, &[]);
    let mut journal = journal(&draft);
    journal.record(checked(&draft, &all_checks(&draft), ""));
    assert!(done(&journal, &draft));
    journal.record(described(&with(
        IMPELLER,
        &[("torque", ""), ("second", "")],
    )));
    assert!(!done(&journal, &draft));
    let why: Vec<Misfit> = journal.objections().iter().map(|o| o.why).collect();
    assert_eq!(why, [Misfit::TightenedInError]);
}
