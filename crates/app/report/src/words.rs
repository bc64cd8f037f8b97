//! How numbers become words on a page.

use clearance::Estimate;
use quantity::Unit;

/// Decimals shown for a gap.
pub fn decimals(unit: Unit) -> u32 {
    match unit {
        Unit::Thou => 1,
        _ => 3,
    }
}

/// The unit beside which the person's own is shown.
pub fn other(unit: Unit) -> Unit {
    match unit {
        Unit::Thou => Unit::Millimetre,
        _ => Unit::Thou,
    }
}

/// `13.4 thou`
pub fn length(value: f64, unit: Unit) -> String {
    quantity::format(value, unit, decimals(unit))
}

/// `13.4`
pub fn bare(value: f64, unit: Unit) -> String {
    quantity::number(value, unit, decimals(unit))
}

/// The number of a length with the decimals it needs, three at most: `12`, `0.33`.
pub fn short(value: f64, unit: Unit) -> String {
    let text = quantity::number(value, unit, 3);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}

/// A standard uncertainty, one decimal more than the length it belongs to.
pub fn uncertainty(value: f64, unit: Unit) -> String {
    quantity::format(value, unit, decimals(unit) + 1)
}

/// `13.1 to 13.8 thou`
pub fn interval(low: f64, high: f64, unit: Unit) -> String {
    format!("{} to {}", bare(low, unit), length(high, unit))
}

/// `0.34 mm, 90 % interval 13.1 to 13.8 thou`
pub fn sure(estimate: &Estimate, unit: Unit) -> String {
    format!(
        "{}, 90\u{a0}% interval {}",
        length(estimate.median, other(unit)),
        interval(estimate.low, estimate.high, unit)
    )
}

/// `the craft’s manual, p. 5-18`
pub fn manual(page: &str) -> String {
    match page {
        "" => "the craft’s manual, page not said".to_owned(),
        page => format!("the craft’s manual, p. {page}"),
    }
}

/// `98 %`, and at the ends what may be said: `over 99 %`, `under 1 %`.
pub fn percent(probability: f64) -> String {
    if probability > 0.99 {
        "over 99\u{a0}%".to_owned()
    } else if probability < 0.01 {
        "under 1\u{a0}%".to_owned()
    } else {
        format!("{:.0}\u{a0}%", probability * 100.0)
    }
}

/// `1 spot`, `3 spots`.
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// `A`, `A and B`, `A, B and C`; after `most` the rest is counted.
pub fn list(words: &[String], most: usize) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] if words.len() <= most => format!("{} and {last}", first.join(", ")),
        _ => format!(
            "{} and {} more",
            words[..most].join(", "),
            words.len() - most
        ),
    }
}

/// The same with a great first letter.
pub(crate) fn upper(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
