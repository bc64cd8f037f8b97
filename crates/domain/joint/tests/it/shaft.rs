//! Which way an impeller comes off, against vectors along the shaft.

use joint::shaft::{Drive, End, Hand, Mount, Rotation, Running, Turned};

const ENDS: [End; 2] = [End::Aft, End::Ahead];
const HANDS: [Hand; 2] = [Hand::Right, Hand::Left];
const DRIVES: [Drive; 2] = [Drive::ShaftDrivesImpeller, Drive::ImpellerDragsShaft];
const TURNED: [Turned; 2] = [Turned::Impeller, Turned::Shaft];
const ROTATIONS: [Rotation; 2] = [Rotation::Clockwise, Rotation::Anticlockwise];

fn mounts() -> impl Iterator<Item = Mount> {
    HANDS.into_iter().flat_map(|hand| {
        ENDS.into_iter().flat_map(move |goes_on_from| {
            DRIVES.into_iter().map(move |drive| Mount {
                hand,
                goes_on_from,
                drive,
            })
        })
    })
}

/// Which way an end lies along an axis that points forward.
fn place(end: End) -> i32 {
    match end {
        End::Aft => -1,
        End::Ahead => 1,
    }
}

/// Angular velocity along that axis: a right thumb toward the eye is against the clock.
fn spin(rotation: Rotation, seen_from: End) -> i32 {
    match rotation {
        Rotation::Anticlockwise => place(seen_from),
        Rotation::Clockwise => -place(seen_from),
    }
}

/// How the impeller moves along its shaft when it alone turns: a right-hand helix advances along its spin.
fn advance(mount: Mount, spin: i32) -> i32 {
    match mount.hand {
        Hand::Right => spin,
        Hand::Left => -spin,
    }
}

#[test]
fn law_tightening_brings_the_impeller_on() {
    for mount in mounts() {
        for (turned, eye) in TURNED.iter().flat_map(|t| ENDS.map(|eye| (*t, eye))) {
            let alone = |rotation| match turned {
                Turned::Impeller => spin(rotation, eye),
                Turned::Shaft => -spin(rotation, eye),
            };
            // On is away from the end it goes on from.
            let on = advance(mount, alone(mount.tightening(turned, eye)));
            let off = advance(mount, alone(mount.loosening(turned, eye)));
            assert_eq!(
                on,
                -place(mount.goes_on_from),
                "{mount:?} {turned:?} {eye:?}"
            );
            assert_eq!(
                off,
                place(mount.goes_on_from),
                "{mount:?} {turned:?} {eye:?}"
            );
        }
    }
}

#[test]
fn law_the_water_holds_the_impeller_back_and_bearings_the_shaft() {
    for mount in mounts() {
        for (rotation, eye) in ROTATIONS.iter().flat_map(|r| ENDS.map(|eye| (*r, eye))) {
            // Whatever is dragged lags: the impeller behind its shaft, or the stub shaft behind it.
            let against = match mount.drive {
                Drive::ShaftDrivesImpeller => -spin(rotation, eye),
                Drive::ImpellerDragsShaft => spin(rotation, eye),
            };
            let on = advance(mount, against) == -place(mount.goes_on_from);
            let expected = match (mount.drive, on) {
                (Drive::ShaftDrivesImpeller, true) => Running::Tightens,
                (Drive::ShaftDrivesImpeller, false) => Running::Loosens,
                (Drive::ImpellerDragsShaft, true) => Running::BarelyTightens,
                (Drive::ImpellerDragsShaft, false) => Running::BarelyLoosens,
            };
            assert_eq!(
                mount.running(rotation, eye),
                expected,
                "{mount:?} {rotation:?} {eye:?}"
            );
        }
    }
}

// Known from any bench: a right-hand nut goes on with the clock for whoever puts it on, and comes off against
// it; from behind the bolt it is the other way.
#[test]
fn practice_a_nut_on_a_bolt() {
    let nut = Mount {
        hand: Hand::Right,
        goes_on_from: End::Aft,
        drive: Drive::ShaftDrivesImpeller,
    };
    let clockwise = Rotation::Clockwise;
    assert_eq!(nut.tightening(Turned::Impeller, End::Aft), clockwise);
    assert_eq!(nut.loosening(Turned::Impeller, End::Ahead), clockwise);
    assert_eq!(nut.loosening(Turned::Shaft, End::Aft), clockwise);
    let left = Mount {
        hand: Hand::Left,
        ..nut
    };
    assert_eq!(left.loosening(Turned::Impeller, End::Aft), clockwise);
}

// Common practice, no source: hold the impeller, turn the shaft as it runs; if that screws them together, running
// tightens. On a stub shaft the sense reverses.
#[test]
fn practice_hold_the_impeller_and_turn_the_shaft_as_it_runs() {
    let mount = Mount {
        hand: Hand::Right,
        goes_on_from: End::Aft,
        drive: Drive::ShaftDrivesImpeller,
    };
    let tightens = mount.tightening(Turned::Shaft, End::Aft);
    assert_eq!(tightens, Rotation::Anticlockwise);
    assert_eq!(mount.running(tightens, End::Aft), Running::Tightens);
    let stub = Mount {
        drive: Drive::ImpellerDragsShaft,
        ..mount
    };
    assert_eq!(stub.running(tightens, End::Aft), Running::BarelyLoosens);
}

// One rotation, both layouts: with the clock seen from behind, an impeller that its shaft drives comes off with
// the clock, and one that drags a stub shaft against it. From which end it goes on decides its hand, not this.
#[test]
fn law_the_layout_turns_the_way_off_round() {
    let (clockwise, behind) = (Rotation::Clockwise, End::Aft);
    for goes_on_from in ENDS {
        let off = |drive, turned, eye| {
            let mount = Mount::kept_tight(drive, goes_on_from, clockwise, behind);
            mount.loosening(turned, eye)
        };
        let [driven, drags] = DRIVES;
        for (drive, impeller) in [(driven, clockwise), (drags, Rotation::Anticlockwise)] {
            let other = impeller.reversed();
            assert_eq!(off(drive, Turned::Impeller, End::Aft), impeller);
            assert_eq!(off(drive, Turned::Impeller, End::Ahead), other);
            assert_eq!(off(drive, Turned::Shaft, End::Aft), other);
            assert_eq!(off(drive, Turned::Shaft, End::Ahead), impeller);
        }
    }
}

#[test]
fn law_a_mount_kept_tight_is_tightened_by_running() {
    for made in mounts() {
        for (rotation, eye) in ROTATIONS.iter().flat_map(|r| ENDS.map(|eye| (*r, eye))) {
            let kept = Mount::kept_tight(made.drive, made.goes_on_from, rotation, eye);
            let running = kept.running(rotation, eye);
            assert!(
                matches!(running, Running::Tightens | Running::BarelyTightens),
                "{kept:?} {rotation:?} {eye:?}"
            );
        }
    }
}
