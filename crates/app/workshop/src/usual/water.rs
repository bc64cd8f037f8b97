//! On the water, and the recheck after the first hour that closes the job.

use super::craft::{Bearing, Has};
use super::table::{ROW, Row, Table};
use crate::plan::{Gate, Opens};

pub(super) const TABLE: Table = Table {
    group: "On the water",
    rows: ROWS,
    times: &[],
};

/// The recheck that closes the job.
pub(super) const RECHECK: Table = Table {
    group: "After the first hour",
    rows: AFTER,
    times: &[],
};

const AFLOAT: Row = Row {
    opens: Opens::FullThrottle,
    ..ROW
};

const ROWS: &[Row] = &[
    Row {
        key: "float",
        name: "Afloat at the ramp: look into the bilge",
        how: "Strap on, engine off, seat up, five minutes by the clock, weight moved aft. A drop \
              where it was dry: out again and find it.",
        minutes: 10,
        caution: "Stay at the ramp with the strap on. Water that rises: out at once.",
        after: &["plugs"],
        ..AFLOAT
    },
    Row {
        key: "idle",
        name: "Idle, steer, forward and back at the ramp",
        how: "Lanyard on the wrist. Tell-tale runs, steering answers both ways, neutral stands still \
              where it has one. Bilge looked at again.",
        minutes: 15,
        hands: 2,
        caution: "Nobody behind the nozzle, nobody near the intake: no rope, hair or loose clothes.",
        after: &["float"],
        ..AFLOAT
    },
    Row {
        key: "half-throttle",
        name: "Water test at half throttle",
        how: "Ten minutes, in clear water. No new noise, shake or smell, engine cool, bailers throw \
              what there is. No full throttle before the look after it.",
        minutes: 30,
        gate: |_| Some(Gate::GapReread),
        caution: "Nobody behind the nozzle. Lanyard and vest on, a second craft or shore in reach.",
        after: &["idle"],
        ..AFLOAT
    },
    Row {
        key: "look-after",
        name: "Out again: bilge, warmth, marks",
        how: "Bilge dry or bailed. Bearing housing and hull seal warm at most, marks where they were, \
              no sealant torn, nothing weeps. Steering without new play.",
        minutes: 20,
        caution: "Exhaust and housings may be hot: back of the hand first. Battery and lanyard off \
                  before a hand goes into the pump.",
        after: &["half-throttle"],
        ..AFLOAT
    },
];

const LAST: Row = Row {
    opens: Opens::Closed,
    ..ROW
};

const AFTER: &[Row] = &[
    Row {
        key: "first-hour",
        name: "First hour in use",
        how: "Full throttle in short pulls first. Note rpm and speed both ways in one place, still \
              water, full tank or half: the next rebuild is held against them.",
        minutes: 60,
        caution: "Nobody behind the nozzle. Lanyard and vest on; the manual’s running-in comes first.",
        after: &["look-after"],
        ..LAST
    },
    Row {
        key: "flush",
        name: "Flushed with fresh water, dried",
        how: "In the manual’s order of engine and tap. Pump, gate and linkage rinsed, bilge drained.",
        minutes: 20,
        needs: &["flush-hose"],
        caution: "Never run without cooling water. Outdoors: fumes. Hot parts: wait.",
        after: &["first-hour"],
        ..LAST
    },
    Row {
        key: "recheck-bolts",
        name: "Recheck: bolts of grate and plate, every mark",
        how: "Grate and plate bolts tried with the wrench where no locker or sealant has cured on \
              them; all other marks looked at. One that moved is a finding.",
        minutes: 20,
        tools: &["torque-wrench"],
        caution: "Battery and lanyard off while a hand is under or in the pump.",
        after: &["flush"],
        ..LAST
    },
    Row {
        key: "recheck-cone",
        name: "Recheck: cone and joints do not weep",
        how: "Wiped with white paper: no grease, no oil, no salt track at cone, housing joint or pump \
              shoe.",
        minutes: 10,
        after: &["flush"],
        ..LAST
    },
    Row {
        key: "recheck-hoses",
        name: "Recheck: hose ends and bilge",
        how: "Every end pulled by hand, clamps once more, vent holes of the bailers open, strainers \
              looked into. No water where none was.",
        minutes: 20,
        after: &["flush"],
        ..LAST
    },
    Row {
        key: "recheck-shaft",
        name: "Recheck: feel of the shaft, and the gap",
        how: "Whole turn by hand as smooth as on the bench, no new play. The tightest spots of the \
              gap once more: a ring that swells or rubs shows in its first hour.",
        minutes: 25,
        tools: &["leaves"],
        caution: "Battery and lanyard off while a hand is in the pump. Blade edges cut.",
        after: &["flush"],
        ..LAST
    },
    Row {
        key: "recheck-grease",
        name: "Recheck: grease not milky",
        how: "A little from the vent or fitting on white paper: milky means water, and the housing is \
              opened again.",
        minutes: 10,
        after: &["flush"],
        when: |craft| craft.bearing == Bearing::Greased,
        ..LAST
    },
    Row {
        key: "recheck-oil",
        name: "Recheck: oil not milky",
        how: "Level as it was filled, a little on white paper: milky means water, and the housing is \
              opened again.",
        minutes: 10,
        needs: &["plug-washers"],
        caution: "Hot oil: let it cool.",
        after: &["flush"],
        when: |craft| craft.bearing == Bearing::OilFilled,
        ..LAST
    },
    Row {
        key: "recheck-coolant",
        name: "Recheck: coolant level",
        how: "Cold, at its mark. What it lost is either the last air or a leak: look at hoses and plate.",
        minutes: 10,
        caution: "Never opened hot.",
        after: &["flush"],
        when: |craft| craft.has(Has::CoolingPlate),
        ..LAST
    },
    Row {
        key: "recheck-controls",
        name: "Recheck: steering straight, pins and nuts",
        how: "Bars straight, nozzle straight, lock to lock equal; jam nuts and cotter pins as they \
              were set, boots dry inside.",
        minutes: 15,
        after: &["flush"],
        ..LAST
    },
    Row {
        key: "record",
        name: "Build sheet kept, next opening noted",
        how: "Print the build sheet, note engine hours and when to look at gap and anodes next.",
        minutes: 15,
        after: &[
            "recheck-bolts",
            "recheck-cone",
            "recheck-hoses",
            "recheck-shaft",
            "recheck-grease",
            "recheck-oil",
            "recheck-coolant",
            "recheck-controls",
        ],
        ..LAST
    },
];
