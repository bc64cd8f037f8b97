//! Water tests against what others published.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod compare;
mod conditions;
mod current;
mod drawn;
mod geodesy;
mod keep;
mod logs;
mod read;
mod read_csv;
mod read_gpx;
mod read_laws;
mod read_nmea;
mod real_logs;
mod reduce;
mod refused_runs;
mod runs;
mod segment;
mod smooth;
mod starts;
mod typed;

/// To an absolute tolerance.
#[track_caller]
fn assert_near(ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{ours} against {theirs}, off by {:.3e}, allowed {within:.0e}",
        (ours - theirs).abs()
    );
}

/// All of them to an absolute tolerance.
#[track_caller]
fn assert_all_near(ours: &[f64], theirs: &[f64], within: f64) {
    assert_eq!(ours.len(), theirs.len(), "{ours:?} against {theirs:?}");
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert_near(*ours, *theirs, within);
    }
}
