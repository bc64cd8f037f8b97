use joint::{Condition, Interval};

fn spans(outer: Interval, inner: Interval) -> bool {
    outer.low <= inner.low && inner.high <= outer.high
}

#[test]
fn published_vdi_2230_classes() {
    // Guide table of VDI 2230 as printed elsewhere: class B 0.08 to 0.16, C 0.14 to 0.24, D 0.20 to
    // 0.35. Each condition rests on the classes named beside it.
    let class = |low, high| Interval { low, high };
    for (condition, classes) in [
        (Condition::Dry, class(0.20, 0.35)),
        (Condition::LightOil, class(0.14, 0.35)),
        (Condition::Grease, class(0.08, 0.16)),
        (Condition::AntiSeize, class(0.08, 0.16)),
        (Condition::Threadlocker, class(0.14, 0.24)),
    ] {
        assert!(spans(classes, condition.friction().thread), "{condition:?}");
        assert_eq!(condition.basis(), "vdi-2230");
    }
}

#[test]
fn practice_what_nobody_knows_is_the_hull_of_the_rest() {
    let unknown = Condition::Unknown.friction();
    let rest = Condition::ALL
        .into_iter()
        .filter(|c| *c != Condition::Unknown);
    let hull = |of: fn(Condition) -> Interval| {
        rest.clone().map(of).reduce(|a, b| Interval {
            low: a.low.min(b.low),
            high: a.high.max(b.high),
        })
    };
    assert_eq!(hull(|c| c.friction().thread), Some(unknown.thread));
    assert_eq!(hull(|c| c.friction().head), Some(unknown.head));
    assert_eq!(Condition::Unknown.basis(), "common practice, no source");
}

#[test]
fn practice_a_head_left_dry_is_as_uncertain_as_dry() {
    let dry = Condition::Dry.friction();
    for condition in [Condition::Threadlocker, Condition::PtfePaste] {
        assert_eq!(condition.friction().head, dry.head);
        assert!(condition.friction().thread.low < dry.thread.low);
    }
}
