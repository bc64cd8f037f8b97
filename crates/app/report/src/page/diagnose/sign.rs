//! What is heard and seen, as it is asked and as it is told.

use diagnosis::symptom::Symptom;

/// The questions in groups that one thinks of together.
pub(crate) const GROUPS: [(&str, [Symptom; 4]); 4] = [
    (
        "How it came",
        [
            Symptom::Refit,
            Symptom::Sudden,
            Symptom::Clears,
            Symptom::Chop,
        ],
    ),
    (
        "Pulling away",
        [Symptom::Flare, Symptom::Roar, Symptom::Milky, Symptom::Low],
    ),
    (
        "Shaking, noise, steering",
        [
            Symptom::Vibration,
            Symptom::Growl,
            Symptom::Smell,
            Symptom::Pull,
        ],
    ),
    (
        "Engine and cooling",
        [
            Symptom::Hot,
            Symptom::Telltale,
            Symptom::Held,
            Symptom::Misfire,
        ],
    ),
];

/// As it is asked.
pub(crate) fn question(symptom: Symptom) -> &'static str {
    match symptom {
        Symptom::Roar => "Does the pump roar or rattle when pulling away?",
        Symptom::Flare => "Does the engine race when the throttle opens, then hook up?",
        Symptom::Milky => "Is the jet milky when pulling away?",
        Symptom::Chop => "Is it worse in chop or in turns?",
        Symptom::Vibration => "Does it shake, more with engine speed?",
        Symptom::Growl => "Does the pump’s housing growl or whine, at low speed too?",
        Symptom::Telltale => "Is the cooling water’s outlet weak, or does it spit?",
        Symptom::Hot => "Does the engine run hot?",
        Symptom::Smell => "Does it smell of hot rubber, or is the coupling hot?",
        Symptom::Misfire => "Does the engine misfire, smoke or show a fault lamp?",
        Symptom::Held => "Does the engine stop rising at one number, as if held?",
        Symptom::Low => "Does it sit low, and is it long to plane?",
        Symptom::Pull => "Does it steer to one side, or throw spray up?",
        Symptom::Sudden => "Did it come all at once, on a ride?",
        Symptom::Clears => "Is it better after reversing or stopping?",
        Symptom::Refit => "Was it there from the first run after the pump was open?",
    }
}

/// As it is told, where it is so and where it is not.
pub(crate) fn told(symptom: Symptom, yes: bool) -> &'static str {
    let (so, not) = match symptom {
        Symptom::Roar => ("it roars pulling away", "no roar pulling away"),
        Symptom::Flare => (
            "the engine races, then hooks up",
            "the engine does not race",
        ),
        Symptom::Milky => ("the jet is milky", "the jet is clear"),
        Symptom::Chop => ("it is worse in chop or turns", "it is no worse in chop"),
        Symptom::Vibration => ("it shakes", "it does not shake"),
        Symptom::Growl => ("the pump growls or whines", "the pump does not growl"),
        Symptom::Telltale => ("the cooling outlet is weak", "the cooling outlet is strong"),
        Symptom::Hot => ("it runs hot", "it does not run hot"),
        Symptom::Smell => ("it smells of hot rubber", "no smell of hot rubber"),
        Symptom::Misfire => (
            "it misfires, smokes or shows a lamp",
            "no misfire, smoke or lamp",
        ),
        Symptom::Held => ("the engine stops at one number", "the engine is not held"),
        Symptom::Low => ("it sits low, long to plane", "it sits as it should"),
        Symptom::Pull => ("it steers to one side", "it runs straight"),
        Symptom::Sudden => ("it came all at once", "it did not come at once"),
        Symptom::Clears => ("it is better after stopping", "stopping changes nothing"),
        Symptom::Refit => (
            "it is so since the pump was open",
            "it is not so since the pump was open",
        ),
    };
    if yes { so } else { not }
}
