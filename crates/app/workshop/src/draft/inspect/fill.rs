//! From what was said back to a sheet as typed.

use quantity::{Entered, Unit};

use super::words::{
    AREAS, FIGURES, FLAWS, HOWS, METALS, METHODS, POLYMERS, PUSHES, RING_SEATS, SEVERITIES, SOAKED,
    SPINS, STACKS, TODOS, TRACKS, YES,
};
use super::{InspectionDraft, Sheet};
use crate::draft::{typed, word};
use crate::inspect::{
    Cone, Finding, Flaw, Inspection, LeakTest, Reread, Ring, Rotor, Settled, Sizes, Track, Visit,
};
use crate::reading;

const MM: Unit = Unit::Millimetre;

/// The sheet as it fills.
pub(super) struct Filling(pub(super) InspectionDraft);

impl Filling {
    pub(super) fn new(sheet: Sheet, key: String) -> Self {
        Self(InspectionDraft {
            sheet,
            key,
            fields: std::collections::BTreeMap::new(),
        })
    }

    pub(super) fn text(&mut self, field: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.0.fields.insert(field, text);
        }
    }

    pub(super) fn maybe(&mut self, field: &'static str, entered: Option<&Entered>, bare: Unit) {
        self.text(
            field,
            entered.map_or_else(String::new, |entered| typed(entered, bare)),
        );
    }

    /// `13-14 thou`, or the one number.
    pub(super) fn gap(&mut self, low: &Entered, high: &Entered, unit: Unit) {
        let (low_text, high_text) = (typed(low, high.unit), typed(high, unit));
        let gap = if low == high {
            high_text
        } else if low_text.contains('-') || high_text.contains('-') {
            format!("{low_text} - {high_text}")
        } else {
            format!("{low_text}-{high_text}")
        };
        self.text("gap", gap);
    }

    pub(super) fn pair(
        &mut self,
        (one, other): (&'static str, &'static str),
        pair: Option<&(Entered, Entered)>,
        bare: Unit,
    ) {
        self.maybe(one, pair.map(|pair| &pair.0), bare);
        self.maybe(other, pair.map(|pair| &pair.1), bare);
    }
}

impl InspectionDraft {
    /// The sheet that reads as `said`; a bare gap takes `unit`.
    pub fn of(said: &Inspection, unit: Unit) -> Self {
        let blank = Filling::new;
        let one = |sheet| blank(sheet, String::new());
        match said {
            Inspection::AsFound { key, found } => Self::of_found(key, found, unit),
            Inspection::Supply { key, supply } => Self::of_supply(key, supply),
            Inspection::Rotor(rotor) => one(Sheet::Rotor).rotor(rotor),
            Inspection::Leak(test) => one(Sheet::Leak).leak(test),
            Inspection::Alignment(read) => one(Sheet::Alignment).alignment(read),
            Inspection::Found { key, finding } => {
                blank(Sheet::Finding, key.to_string()).finding(finding)
            }
            Inspection::Settled { finding, settled } => {
                blank(Sheet::Settled, finding.to_string()).settled(settled)
            }
            Inspection::Sizes(sizes) => one(Sheet::Sizes).sizes(sizes),
            Inspection::Ring(ring) => one(Sheet::Ring).ring(ring),
            Inspection::Cone(cone) => one(Sheet::Cone).cone(cone),
            Inspection::Reread(reread) => one(Sheet::Reread).reread(reread, unit),
            Inspection::Visit { key, visit } => {
                blank(Sheet::Visit, key.to_string()).visit(visit, unit)
            }
            Inspection::Sealing(said) => Self::of_sealing(said),
        }
    }
}

impl Filling {
    fn rotor(mut self, rotor: &Rotor) -> InspectionDraft {
        self.pair(("float_aft", "float_forward"), rotor.float.as_ref(), MM);
        self.pair(("radial_up", "radial_down"), rotor.radial.as_ref(), MM);
        if let Some(runout) = &rotor.runout {
            self.maybe("runout_first", Some(&runout.first), MM);
            self.maybe("runout_second", Some(&runout.second), MM);
            self.maybe("runout_apart", Some(&runout.apart), MM);
            self.maybe("runout_beyond", Some(&runout.beyond), MM);
        }
        if let Some(track) = &rotor.track {
            self.text("track", word(&TRACKS, *track != Track::Smooth));
            if let Track::Groove(depth) = track {
                self.maybe("groove", Some(depth), MM);
            }
        }
        self.text(
            "spline_step",
            rotor.spline_step.map_or("", |step| word(&YES, step)),
        );
        self.text("spin", rotor.spin.map_or("", |spin| word(&SPINS, spin)));
        self.maybe("dial", rotor.dial.as_ref(), MM);
        self.maybe("float_limit", rotor.float_limit.as_ref(), MM);
        self.maybe("radial_limit", rotor.radial_limit.as_ref(), MM);
        self.maybe("runout_limit", rotor.runout_limit.as_ref(), MM);
        self.text("page", rotor.page.as_str());
        self.0
    }

    fn leak(mut self, test: &LeakTest) -> InspectionDraft {
        let kelvins = ("start_temperature", "end_temperature");
        self.text("push", word(&PUSHES, test.push));
        self.maybe("start", Some(&test.start), Unit::Kilopascal);
        self.maybe("end", Some(&test.end), Unit::Kilopascal);
        self.maybe("hold", Some(&test.hold), Unit::Minute);
        self.pair(kelvins, test.temperatures.as_ref(), Unit::Celsius);
        self.text("turned", word(&YES, test.turned));
        self.maybe("step", Some(&test.step), Unit::Kilopascal);
        self.maybe("allowed", test.allowed.as_ref(), Unit::Kilopascal);
        self.text("page", test.page.as_str());
        self.0
    }

    fn finding(mut self, finding: &Finding) -> InspectionDraft {
        self.text("area", word(&AREAS, finding.area));
        self.text("which", finding.which.as_str());
        self.text("flaw", word(&FLAWS, finding.flaw));
        self.text("words", finding.words.as_str());
        self.text("place", finding.place.as_str());
        self.maybe("depth", finding.depth.as_ref(), MM);
        self.maybe("length", finding.length.as_ref(), MM);
        self.maybe("tip", finding.tip.as_ref(), MM);
        if finding.flaw != Flaw::Nothing {
            self.text("severity", word(&SEVERITIES, finding.severity));
        }
        self.text("severity_why", finding.severity_why.as_str());
        self.text("todo", word(&TODOS, finding.todo));
        self.text("reason", finding.reason.as_str());
        self.0
    }

    fn settled(mut self, settled: &Settled) -> InspectionDraft {
        self.text("how", word(&HOWS, settled.how));
        self.text("reason", settled.reason.as_str());
        self.0
    }

    fn sizes(mut self, sizes: &Sizes) -> InspectionDraft {
        let fields = ["bore_12", "bore_130", "bore_3", "bore_430"];
        for (field, bore) in fields.into_iter().zip(&sizes.bores) {
            self.maybe(field, bore.as_ref(), MM);
        }
        if let Some((diameter, method)) = &sizes.impeller {
            self.maybe("impeller", Some(diameter), MM);
            self.text("method", word(&METHODS, *method));
        }
        self.0
    }

    fn ring(mut self, ring: &Ring) -> InspectionDraft {
        self.text("seat", word(&RING_SEATS, ring.seat));
        self.text(
            "polymer",
            ring.polymer.map_or("", |polymer| word(&POLYMERS, polymer)),
        );
        self.maybe("wall", ring.wall.as_ref(), MM);
        self.text("soaked", word(&SOAKED, ring.soaked));
        self.text("turning", word(&METALS, ring.impeller));
        self.maybe("bench", ring.bench.as_ref(), Unit::Celsius);
        self.maybe("water", ring.water.as_ref(), Unit::Celsius);
        self.0
    }

    fn cone(mut self, cone: &Cone) -> InspectionDraft {
        self.maybe("half_angle", Some(&cone.half_angle), Unit::Degree);
        self.maybe("fitted", Some(&cone.fitted), MM);
        let shims: Vec<String> = cone.shims.iter().map(|shim| typed(shim, MM)).collect();
        self.text("shims", shims.join("; "));
        self.text("stack", word(&STACKS, cone.opens));
        self.0
    }

    fn reread(mut self, reread: &Reread, unit: Unit) -> InspectionDraft {
        let fields = ["clock_12", "clock_3", "clock_6", "clock_9"];
        for (field, tries) in fields.into_iter().zip(&reread.clocks) {
            self.text(field, reading::write(tries, unit));
        }
        self.text(
            "turns",
            if reread.rubs.is_empty() {
                "free"
            } else {
                "rubs"
            },
        );
        self.text("rubs", reread.rubs.as_str());
        self.0
    }

    fn visit(mut self, visit: &Visit, unit: Unit) -> InspectionDraft {
        self.maybe("hours", Some(&visit.hours), Unit::Hour);
        if let Some((low, high)) = &visit.gap {
            self.gap(low, high, unit);
        }
        self.text("figure", word(&FIGURES, visit.figure));
        self.text("renewed", word(&YES, visit.renewed));
        self.0
    }
}
