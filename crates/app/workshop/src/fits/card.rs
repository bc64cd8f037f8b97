//! The card of a joint that is no circle of screws: what to clean, what goes on it and how much,
//! what to do in order, what proves it, and what can hurt.

mod found;
pub mod impeller;
mod press;
mod seals;

use quantity::{Unit, format};

use super::mount::{self, FitStop, Turning, turning};
use super::{Carries, Fit, FitKind, FitState, Limit, Until};
use crate::job::Job;
use crate::sourced::Origin;

/// Everything there is to say about it before it is touched.
#[derive(Clone, Debug, PartialEq)]
pub struct FitCard {
    /// What to do, in the order of [`Part`].
    pub lines: Vec<Line>,
    /// What does not look right in what was described.
    pub mind: Vec<String>,
    /// Why it must not be tightened yet.
    pub stop: Option<FitStop>,
    /// What its reading must keep to.
    pub limit: Option<Limit>,
    /// Which way an impeller turns.
    pub turning: Option<Turning>,
}

/// One line of a card.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it belongs to.
    pub part: Part,
    /// A sentence or two.
    pub words: String,
    /// Where it comes from.
    pub origin: Origin,
}

/// The parts of a card, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// What to clean.
    Clean,
    /// What goes on it, and how much.
    PutOn,
    /// What to do, in order.
    Do,
    /// What proves it.
    Prove,
    /// What can hurt.
    Caution,
}

impl FitCard {
    /// The lines of one part.
    pub fn of(&self, part: Part) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(move |line| line.part == part)
    }

    /// What can hurt, in one text.
    pub fn caution(&self) -> String {
        let words: Vec<&str> = self.of(Part::Caution).map(|l| l.words.as_str()).collect();
        words.join(" ")
    }
}

/// A card as it fills.
struct Cards<'a> {
    state: &'a FitState,
    lines: Vec<Line>,
    mind: Vec<String>,
}

/// What is told as from memory.
const MEMORY: Origin = Origin::Assumed("from memory; the part’s own marking goes before it");

impl Cards<'_> {
    fn line(&mut self, part: Part, origin: Origin, words: impl Into<String>) {
        let words = words.into();
        self.lines.push(Line {
            part,
            words,
            origin,
        });
    }

    /// Common practice.
    fn usual(&mut self, part: Part, words: impl Into<String>) {
        self.line(part, Origin::Practice, words);
    }

    /// As the person described it, from the manual where a page is named.
    fn stated(&self) -> Origin {
        let fact = &self.state.fit;
        Origin::Manual {
            entry: fact.entry.clone(),
            page: fact.value.page.clone(),
        }
    }

    /// As the person has it before them.
    fn found(&self) -> Origin {
        Origin::Measured(self.state.fit.entry.clone())
    }
}

/// The card.
pub fn card(job: &Job, state: &FitState) -> FitCard {
    let fit = &state.fit.value;
    let turning = turning(job, fit);
    let mut cards = Cards {
        state,
        lines: Vec::new(),
        mind: Vec::new(),
    };
    match &fit.kind {
        FitKind::Press(press) => cards.press(press),
        FitKind::Lips(lips) => cards.lips(lips),
        FitKind::ORing { rubber, sizes } => cards.o_ring(*rubber, sizes.as_deref()),
        FitKind::Fill(fill) => cards.fill(fill),
        FitKind::Spline { bumpers, .. } => cards.spline(*bumpers, fit),
        FitKind::Hose { carries, below } => cards.hose(*carries, *below),
        FitKind::Cable { threads } => cards.cable(*threads),
        FitKind::Plug { .. } => cards.plug(fit),
        FitKind::Anode { .. } => cards.anode(fit),
        FitKind::Shims(studs) => cards.shims(studs),
        FitKind::Impeller(impeller) => cards.impeller(impeller, turning),
    }
    cards.as_found(job);
    cards.lines.sort_by_key(|line| line.part);
    FitCard {
        lines: cards.lines,
        mind: cards.mind,
        stop: mount::stop(job, fit),
        limit: fit.limit(),
        turning,
    }
}

impl Cards<'_> {
    fn fill(&mut self, fill: &super::Fill) {
        let what = if fill.oil { "oil" } else { "grease" };
        self.usual(
            Part::Clean,
            format!(
                "The plug or nipple and all round it, before it is opened. The old {what} out."
            ),
        );
        let much = match fill.amount.as_str() {
            "" => "the manual says no amount".to_owned(),
            amount => amount.to_owned(),
        };
        let words = format!("{}: {much}.", fill.product);
        self.line(Part::PutOn, self.stated(), words);
        let until = match (fill.until, fill.oil) {
            (Until::Shows, _) => "Slowly, by hand, turning the shaft, until it shows fresh.",
            (Until::Level, _) => {
                "With the pump as the manual has it lie, up to the mark or the edge of the hole; \
                 wait for the air to come up, and top up."
            }
            (Until::Amount, _) => "That amount and no more; weigh or measure it.",
        };
        self.line(Part::Do, self.stated(), until);
        self.usual(
            Part::Prove,
            "Turn the shaft a few times and look again. Milky or gritty is water: find where it \
             came in before it is closed.",
        );
        self.usual(
            Part::Caution,
            if fill.oil {
                "Oil on floor and hands makes all else slip: wipe at once, gloves, and none of it \
                 into the water."
            } else {
                "A gun can drive grease through the skin: hand off the nozzle, and a hospital at \
                 once if it does. It can push a lip out too: no force against a closed seal."
            },
        );
    }

    fn spline(&mut self, bumpers: bool, fit: &Fit) {
        self.usual(
            Part::Clean,
            "Old grease brushed out of both halves. A step felt in the teeth is a finding: note it \
             under Teardown.",
        );
        self.line(
            Part::PutOn,
            MEMORY,
            "Water-resistant grease, a thin coat over the whole length that engages. Wipe the front \
             clean: packed full, a blind spline is a piston and holds the shaft off its stop.",
        );
        if bumpers {
            self.line(
                Part::Do,
                self.found(),
                "The rubber bumpers in first, whole and not hardened.",
            );
        }
        self.usual(
            Part::Do,
            "Support the pump while it goes on; turn the shaft by hand until the teeth find each \
             other. Never draw it in with the screws.",
        );
        let limit = fit.limit();
        let manual = limit.is_some_and(|limit| limit.manual);
        let words = match limit.map(|limit| (limit.least, limit.greatest)) {
            Some((Some(least), greatest)) if manual => {
                let most = greatest.map_or_else(String::new, |most| {
                    format!(", at most {}", format(most, Unit::Millimetre, 2))
                });
                let least = if least > 0.0 {
                    format!("at least {}", format(least, Unit::Millimetre, 2))
                } else {
                    "some".to_owned()
                };
                format!("Play left along the shaft, measured once all is home: {least}{most}.")
            }
            _ => "Play left along the shaft, measured once all is home: some must be left, or the \
                  shaft presses on its bearings as it warms."
                .to_owned(),
        };
        let origin = if manual {
            self.stated()
        } else {
            Origin::Practice
        };
        self.line(Part::Prove, origin, words);
        self.usual(
            Part::Caution,
            "Battery and safety lanyard off: a shaft that turns takes fingers. A pump is heavy and \
             slips: prop it up, and keep hands out of the joint.",
        );
    }

    fn hose(&mut self, carries: Carries, below: bool) {
        self.usual(
            Part::Clean,
            "Spigot smooth and dry. A hose that is hard, soft, cracked or swollen is not fitted \
             again.",
        );
        self.usual(
            Part::PutOn,
            "A wet finger or soapy water at most: grease lets it slip off later.",
        );
        let two = if below {
            " Below the waterline two clamps, where the spigot is long enough for both."
        } else {
            ""
        };
        self.usual(
            Part::Do,
            format!(
                "Clamp over the hose first; push home to the stop; clamp behind the bead, clear of \
                 the hose’s end, screw where a tool reaches it.{two} Tight, but not into the rubber."
            ),
        );
        self.usual(
            Part::Prove,
            match carries {
                Carries::Cooling => {
                    "It does not move when pulled by hand. Dry at the first run, and water comes \
                     out where the manual says."
                }
                Carries::Bilge => {
                    "It does not move when pulled by hand. It runs with no dip that holds water, \
                     and draws when tried with a bucket."
                }
                Carries::Exhaust => {
                    "It does not move when pulled by hand. No trace of soot or water at the first \
                     run."
                }
            },
        );
        self.usual(
            Part::Caution,
            match carries {
                Carries::Exhaust => {
                    "Exhaust is poison and stays hot: let it cool; run the engine only in the open, \
                     and no longer than the manual allows out of the water."
                }
                _ if below => {
                    "Below the waterline a hose that comes off sinks the craft: no second-hand \
                     clamp, and a look at it in the first minutes afloat. A cut clamp’s end is \
                     sharp."
                }
                _ => "A knife that slips on old hose cuts deep: cut away from the hand.",
            },
        );
    }

    fn cable(&mut self, threads: Option<u8>) {
        self.usual(
            Part::Clean,
            "End and thread wiped; the boot whole; no broken strand, no rust from inside.",
        );
        self.usual(
            Part::PutOn,
            "Water-resistant grease on the end and its ball. None into a lined cable unless its \
             maker says so.",
        );
        match threads {
            Some(1) => self.line(
                Part::Do,
                self.found(),
                "Set so that 1 thread shows, as found.",
            ),
            Some(n) => {
                let words = format!("Set so that {n} threads show, as found.");
                self.line(Part::Do, self.found(), words);
            }
            None => self.usual(
                Part::Do,
                "Nothing is noted of how many threads showed: set it by the manual, both ends of \
                 travel alike.",
            ),
        }
        self.usual(
            Part::Do,
            "Lock nut tight, pin or clip in; nothing held by friction alone.",
        );
        self.usual(
            Part::Prove,
            "Full travel both ways at the lever and at the part, nozzle turned as well: it reaches \
             its stops, nothing binds, nothing pulls tight.",
        );
        self.usual(
            Part::Caution,
            "Steering and gate hang on it: try it ashore before every first ride. Battery off and \
             its plug pulled where a motor moves the gate: it starts by itself and crushes.",
        );
    }

    fn plug(&mut self, fit: &Fit) {
        self.usual(Part::Clean, "Seat and thread, of both.");
        self.usual(
            Part::PutOn,
            "A new washer or ring. On the thread what the manual says, and nothing where it says \
             nothing.",
        );
        match fit.torque() {
            Some(torque) => {
                let words = format!("By hand until it seats, then to {}.", torque.worded());
                self.line(Part::Do, self.stated(), words);
            }
            None => self.usual(
                Part::Do,
                "By hand until it seats, then snug with a short tool. The manual’s torque is not \
                 stated, and nothing is assumed in its place.",
            ),
        }
        self.usual(
            Part::Prove,
            "Dry after a quarter of an hour, and once more after the first run.",
        );
        self.usual(
            Part::Caution,
            "A plug left out sinks the craft: hang it on the lanyard while it is out. Hot oil \
             burns: let it cool before it is opened.",
        );
    }

    fn shims(&mut self, studs: &[quantity::Entered]) {
        self.usual(
            Part::Clean,
            "Both faces and every shim: flat, no burr, no old sealant between.",
        );
        self.usual(Part::PutOn, "Nothing between the shims.");
        let stacks = (1_usize..).zip(studs);
        let stacks: Vec<String> = stacks
            .map(|(stud, stack)| format!("{stud}: {}", stack.worded()))
            .collect();
        let words = format!(
            "By stud, with the clock from the top: {}. A tag on each stack until it is on.",
            stacks.join("; ")
        );
        self.line(Part::Do, self.found(), words);
        self.usual(
            Part::Do,
            "Tighten as the joint they belong to, all passes, before anything is measured.",
        );
        self.usual(
            Part::Prove,
            "Line up measured after the last pass, by the manual’s own way. Write it down by stud: \
             the next one to open it needs it.",
        );
        self.usual(
            Part::Caution,
            "Shims cut: gloves, never a finger between. Prop up what the studs hold before the last \
             nut is off.",
        );
    }

    fn anode(&mut self, fit: &Fit) {
        self.usual(
            Part::Clean,
            "Seat and screw to bare bright metal. Half eaten away or more: a new one.",
        );
        let nothing = seals::nothing_on_an_anode();
        self.line(
            Part::PutOn,
            nothing,
            "Nothing: no paint, no sealant, no grease, no paste on its thread. Any of them cuts it \
             off, and then the casting is eaten in its place.",
        );
        self.usual(
            Part::Do,
            "Screw it tight, dry, by the manual. Do not paint it, then or later.",
        );
        let limit = fit.limit();
        let most = limit
            .and_then(|limit| limit.greatest)
            .unwrap_or(super::SEAT);
        let origin = if limit.is_some_and(|limit| limit.manual) {
            self.stated()
        } else {
            Origin::Practice
        };
        let words = format!(
            "Ohmmeter from the anode to bare casting: at most {}, the leads’ own reading taken off.",
            format(most, Unit::Ohm, 1)
        );
        self.line(Part::Prove, origin, words);
        self.usual(
            Part::Caution,
            "Battery off before the meter is on. File by hand: dust and chips of zinc and magnesium \
             burn, and a grinder’s sparks light them. Goggles.",
        );
    }
}
